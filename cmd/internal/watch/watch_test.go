package watch

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// patience is how long a save may take to be seen, on a busy machine.
const patience = 5 * time.Second

// A bench runs a build that reads files and tells what it read.
type bench struct {
	*testing.T
	builds chan string
}

func begin(t *testing.T, names ...string) *bench {
	b := &bench{t, make(chan string, 10_000)}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error)
	go func() {
		var all []string
		done <- Run(ctx, Work{Make: func(before Before) {
			all = nil
			for _, name := range names {
				before(name)
				data, err := os.ReadFile(name)
				if err != nil {
					data = []byte("gone")
				}
				all = append(all, string(data))
			}
		}, Show: func() { b.builds <- strings.Join(all, "|") }})
	}()
	t.Cleanup(func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	return b
}

// sees waits for a build that read want, and returns how many builds it took.
func (b *bench) sees(want string) int {
	b.Helper()
	late := time.After(patience)
	for n, last := 1, ""; ; n++ {
		select {
		case last = <-b.builds:
			if last == want {
				return n
			}
		case <-late:
			b.Fatalf("%.60q was not seen; the last build read %.60q", want, last)
		}
	}
}

// silent demands that nothing is built for a while.
func (b *bench) silent(why string) {
	b.Helper()
	select {
	case got := <-b.builds:
		b.Errorf("%s: built, with %.60q", why, got)
	case <-time.After(doubt + 4*quiet):
	}
}

func (b *bench) must(err error) {
	b.Helper()
	if err != nil {
		b.Fatal(err)
	}
}

func (b *bench) write(name, text string) {
	b.Helper()
	b.must(os.WriteFile(name, []byte(text), 0o666))
}

// ways are how programs save: the text of a file becomes another.
func ways() []func(b *bench, name, text string) {
	return []func(b *bench, name, text string){
		(*bench).write, // in place
		func(b *bench, name, text string) { // a new file over the old one
			b.write(name+".tmp", text)
			b.must(os.Rename(name+".tmp", name))
		},
		func(b *bench, name, text string) { // vim, backupcopy=no: the old one is moved away first
			b.must(os.Rename(name, name+"~"))
			b.write(name, text)
			b.must(os.Remove(name + "~"))
		},
		func(b *bench, name, text string) { // vim, backupcopy=yes: copied, then written in place
			old, err := os.ReadFile(name)
			b.must(err)
			b.write(name+"~", string(old))
			b.write(name, text)
			b.must(os.Remove(name + "~"))
		},
		func(b *bench, name, text string) { // emptied, and filled only after a while
			b.write(name, "")
			time.Sleep(2 * quiet)
			b.write(name, text)
		},
		func(b *bench, name, text string) { // in two halves
			f, err := os.Create(name)
			b.must(err)
			f.WriteString(text[:len(text)/2])
			time.Sleep(quiet / 2)
			f.WriteString(text[len(text)/2:])
			b.must(f.Close())
		},
		func(b *bench, name, text string) { // deleted, then made anew
			b.must(os.Remove(name))
			b.write(name, text)
		},
		func(b *bench, name, text string) { // made elsewhere and moved in
			other := filepath.Join(b.TempDir(), "new")
			b.write(other, text)
			b.must(os.Rename(other, name))
		},
	}
}

func TestNoSaveIsMissed(t *testing.T) {
	name := filepath.Join(t.TempDir(), "boat.seam")
	if err := os.WriteFile(name, []byte("first"), 0o666); err != nil {
		t.Fatal(err)
	}
	b := begin(t, name)
	b.sees("first")
	builds := 0
	all := ways()
	for i := range 300 {
		text := fmt.Sprintf("save %d %s", i, strings.Repeat("x", i*37%9000))
		all[i*7%len(all)](b, name, text)
		builds += b.sees(text)
	}
	t.Logf("300 saves, %d builds", builds)
	if builds > 330 {
		t.Errorf("300 saves were built %d times: half saves are built", builds)
	}
	b.silent("after the last save")
}

// A burst of saves without a pause ends with the last one.
func TestBurst(t *testing.T) {
	name := filepath.Join(t.TempDir(), "boat.seam")
	os.WriteFile(name, []byte("first"), 0o666)
	b := begin(t, name)
	b.sees("first")
	all := ways()[:4]
	text := ""
	for i := range 300 {
		text = fmt.Sprint("burst ", i)
		all[i%len(all)](b, name, text)
		time.Sleep(time.Duration(i%5) * time.Millisecond)
	}
	if n := b.sees(text); n < 2 {
		t.Errorf("a second without a pause was built %d times only", n)
	}
	b.silent("after the last save")
}

func TestOnlyContentCounts(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "boat.seam")
	os.WriteFile(name, []byte("text"), 0o666)
	b := begin(t, name)
	b.sees("text")
	b.write(name, "text")
	b.silent("written again")
	b.must(os.Chtimes(name, time.Now(), time.Now()))
	b.must(os.Chmod(name, 0o600))
	b.silent("touched")
	b.write(filepath.Join(dir, "other.seam"), "other")
	b.write(filepath.Join(dir, ".boat.seam.swp"), "swap")
	b.silent("other files")
	b.must(os.Remove(name))
	b.sees("gone")
	b.write(name, "back")
	b.sees("back")
}

func TestUsedFiles(t *testing.T) {
	dir := t.TempDir()
	name, used := filepath.Join(dir, "boat.seam"), filepath.Join(dir, "families", "deep", "wave.seam")
	os.WriteFile(name, []byte("main"), 0o666)
	b := begin(t, name, used)
	b.sees("main|gone")
	b.must(os.MkdirAll(filepath.Dir(used), 0o777))
	b.write(used, "wave")
	b.sees("main|wave")
	b.write(used, "tide")
	b.sees("main|tide")
	b.write(name, "new")
	b.sees("new|tide")
}

func TestFolderGoneAndBack(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "patterns", "sea")
	name := filepath.Join(dir, "boat.seam")
	os.MkdirAll(dir, 0o777)
	os.WriteFile(name, []byte("0"), 0o666)
	b := begin(t, name)
	b.sees("0")
	for i, away := range []string{dir, filepath.Dir(dir)} {
		text := fmt.Sprint("restored ", i)
		b.must(os.RemoveAll(away))
		b.sees("gone")
		b.must(os.MkdirAll(dir, 0o777))
		b.write(name, text)
		b.sees(text)
		b.write(name, text+"!")
		b.sees(text + "!")
	}
	// moved away as a whole, as git and file managers do
	b.must(os.Rename(dir, filepath.Join(top, "elsewhere")))
	b.sees("gone")
	b.write(filepath.Join(top, "elsewhere", "boat.seam"), "not ours")
	b.silent("another folder")
	b.must(os.Rename(filepath.Join(top, "elsewhere"), dir))
	b.sees("not ours")
	// exchanged at once for another
	b.must(os.Rename(dir, filepath.Join(top, "old")))
	b.must(os.Mkdir(dir, 0o777))
	b.write(name, "exchanged")
	b.sees("exchanged")
	b.write(name, "at last")
	b.sees("at last")
}

func TestLinks(t *testing.T) {
	dir, real := t.TempDir(), filepath.Join(t.TempDir(), "real.seam")
	name := filepath.Join(dir, "boat.seam")
	os.WriteFile(real, []byte("one"), 0o666)
	if err := os.Symlink(real, name); err != nil {
		t.Skip(err)
	}
	b := begin(t, name)
	b.sees("one")
	b.write(real, "two")
	b.sees("two")
	other := filepath.Join(filepath.Dir(real), "other.seam")
	b.write(other, "three")
	b.must(os.Symlink(other, name+".new"))
	b.must(os.Rename(name+".new", name))
	b.sees("three")
}

// What takes longer is done once after a build, when there is peace, and at the
// end if there never was.
func TestRest(t *testing.T) {
	name := filepath.Join(t.TempDir(), "boat.seam")
	os.WriteFile(name, []byte("0"), 0o666)
	ctx, cancel := context.WithCancel(t.Context())
	did, done := make(chan string, 1000), make(chan error)
	go func() {
		var made string
		done <- Run(ctx, Work{
			Make: func(before Before) {
				before(name)
				data, _ := os.ReadFile(name)
				made = string(data)
			},
			Show: func() { did <- made },
			Rest: func() { did <- "rest" },
		})
	}()
	for i := 1; i <= 20; i++ { // saves that follow each other faster than the pause
		time.Sleep(pause / 6)
		os.WriteFile(name, []byte(fmt.Sprint(i)), 0o666)
	}
	var all []string
	for len(all) == 0 || all[len(all)-1] != "rest" || all[len(all)-2] != "20" {
		select {
		case s := <-did:
			all = append(all, s)
		case <-time.After(patience):
			t.Fatal(all)
		}
	}
	if n := strings.Count(strings.Join(all, " "), "rest"); n > 5 { // a busy machine may stop for a pause or two
		t.Errorf("not in peace: %v", all)
	}
	select {
	case s := <-did:
		t.Errorf("%s once more", s)
	case <-time.After(2 * pause):
	}
	os.WriteFile(name, []byte("last"), 0o666)
	for s := range did {
		if s == "last" {
			break
		}
	}
	cancel()
	if err := <-done; err != nil || <-did != "rest" {
		t.Error("no rest at the end", err)
	}
}

// What is made ahead can be seen before the wait is over, and is shown once when it is.
func TestPeek(t *testing.T) {
	name := filepath.Join(t.TempDir(), "boat.seam")
	calls := make(chan string, 100)
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error)
	write := func(text string) {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write("first")
	read := ""
	go func() {
		done <- Run(ctx, Work{
			Make: func(before Before) { before(name); data, _ := os.ReadFile(name); read = string(data) },
			Peek: func() { calls <- "peek " + read },
			Show: func() { calls <- "show " + read },
		})
	}()
	sees := func(want string) {
		t.Helper()
		select {
		case got := <-calls:
			if got != want {
				t.Errorf("%q, want %q", got, want)
			}
		case <-time.After(patience):
			t.Fatalf("never %q", want)
		}
	}
	sees("show first")
	time.Sleep(4 * quiet)
	write("second")
	sees("peek second")
	sees("show second")
	cancel()
	if err := <-done; err != nil {
		t.Error(err)
	}
}
