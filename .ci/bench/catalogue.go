package main

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"time"
)

// A catalogue is many patterns in one folder: how many, of how many pieces each.
const (
	catalogued       = 1000
	cataloguedPieces = 100
)

// What a catalogue should take: built from nothing as long as two MetaPosts need
// for the bare drawings; else what ninja, which only looks at times, needs for
// as many steps (27 ms on the machine where it was measured), and one build more.
const (
	longestSame = 30 * time.Millisecond
	longestOne  = 40 * time.Millisecond
)

// catalogue measures builds of a folder of patterns: all of them, nothing
// changed, one changed.
func (b *bench) catalogue(drawing string) (notes []string) {
	dir := filepath.Join(b.dir, "catalogue")
	must(os.MkdirAll(dir, 0o777))
	text := grid(cataloguedPieces)
	for i := range catalogued {
		must(os.WriteFile(filepath.Join(dir, fmt.Sprintf("p%d.seam", i)), []byte(text), 0o666))
	}
	build := measured(dir)
	all := run("", b.self, build...)
	cache := "XDG_CACHE_HOME=" + filepath.Join(b.dir, "cache") // not the user's own
	firstCheck := run("", "env", cache, b.self, "check", dir)
	var same, one, checked []time.Duration
	for i := range b.runs {
		same = append(same, run("", b.self, build...))
		checked = append(checked, run("", "env", cache, b.self, "check", dir))
		changed := filepath.Join(dir, "p7.seam")
		must(os.WriteFile(changed, []byte(fmt.Sprintf("%s// %d\n", text, i)), 0o666))
		one = append(one, run("", b.self, build...))
	}
	what := fmt.Sprintf("%d patterns of %d pieces", catalogued, cataloguedPieces)
	if b.mpost != "" {
		draws := b.twoMetaPosts(drawing)
		notes = append(notes, b.note(all <= draws, "%s take %s, %.2f times two MetaPosts (%s); reach 1", what, ms(all), ratio(all, draws), ms(draws)))
	} else {
		notes = append(notes, fmt.Sprintf("         %s take %s", what, ms(all)))
	}
	s, o := median(same), median(one)
	notes = append(notes, fmt.Sprintf("         `check` of %s takes %s, %s where all but one were checked before", what, ms(firstCheck), ms(median(checked))))
	return append(notes,
		b.note(s <= longestSame, "%s of which none has changed take %s; reach %v", what, ms(s), longestSame),
		b.note(o <= longestOne, "%s of which one has changed take %s; reach %v", what, ms(o), longestOne))
}

// twoMetaPosts returns how long two processes at a time take to draw one
// pattern's polygons as many times as there are patterns.
func (b *bench) twoMetaPosts(drawing string) time.Duration {
	source, err := os.ReadFile(filepath.Join(b.dir, drawing))
	must(err)
	var next atomic.Int64
	var wait sync.WaitGroup
	begun := time.Now()
	for worker := range 2 {
		wait.Go(func() {
			dir := filepath.Join(b.dir, fmt.Sprintf("mpost%d", worker))
			must(os.MkdirAll(dir, 0o777))
			must(os.WriteFile(filepath.Join(dir, drawing), source, 0o666))
			for next.Add(1) <= catalogued {
				run(dir, b.mpost, "-interaction=batchmode", drawing)
			}
		})
	}
	wait.Wait()
	return time.Since(begun)
}
