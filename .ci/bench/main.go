// Command bench measures what the README says of speed and memory, all of it on
// one machine in one run: `seamwright build` of generated patterns of 12 to
// 10,000 pieces, beside MetaPost drawing the same polygons and nothing more, and
// beside a Go program that prints one word. Run it from the top of the module:
//
//	go run ./.ci/bench
//
// Runs alternate, so that a busy machine is busy for all; the medians count. Each
// build writes all its files anew. Files are written to memory (/dev/shm) where
// there is that, so that programs are measured and not the disk: making a file
// takes 0.01 ms there and up to 0.4 ms on the disks of virtual machines, and a
// build makes a dozen where MetaPost makes two. -disk measures in the usual
// folder for temporary files.
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"
)

// A reach is what a number should stay under, as a multiple of another program.
type reach struct {
	pieces int
	hello  float64 // times the Go program; 0 for none
	mpost  float64 // times MetaPost; 0 for none
	memory float64 // megabytes; 0 for none
}

func reaches() []reach {
	return []reach{{12, 2.5, 0, 0}, {100, 0, 0.5, 16}, {1000, 0, 0.5, 0}, {10000, 0, 0.5, 64}}
}

// longestPiece is what one more piece may cost.
const longestPiece = 14 * time.Microsecond

func main() {
	log.SetFlags(0)
	runs := flag.Int("runs", 21, "how often each program runs")
	keep := flag.String("keep", "", "a folder for the generated patterns, instead of one that is removed")
	disk := flag.Bool("disk", false, "write to the disk instead of to memory")
	saves := flag.Bool("saves", false, "measure only what a save costs under watch")
	strict := flag.Bool("strict", false, "fail where a reach is missed")
	flag.Parse()
	dir, err := os.MkdirTemp(folder(*disk), "seamwright-bench-")
	must(err)
	defer os.RemoveAll(dir)
	if *keep != "" {
		must(os.MkdirAll(*keep, 0o777))
		dir = *keep
	}
	b := &bench{dir: dir, runs: *runs}
	b.programs()
	if *saves {
		b.tell(b.rebuild())
	} else {
		b.table()
	}
	if *strict && b.missed > 0 {
		os.RemoveAll(dir)
		os.Exit(1)
	}
}

// folder is where to write: "" is the usual place.
func folder(disk bool) string {
	const memory = "/dev/shm"
	if info, err := os.Stat(memory); disk || err != nil || !info.IsDir() {
		return ""
	}
	return memory
}

type bench struct {
	dir    string
	runs   int
	self   string // the program
	hello  string // prints one word
	gauge  string // prints another program's peak memory
	mpost  string // "" where it is not installed
	missed int
}

const helloText = `package main

import "os"

func main() { os.Stdout.WriteString("boat\n") }
`

// The gauge runs a program and prints its peak memory in KB. It exists because
// Linux counts the memory of whoever starts a program as that program's: only a
// small starter measures truly.
const gaugeText = `package main

import (
	"os"
	"syscall"
)

func main() {
	pid, err := syscall.ForkExec(os.Args[1], os.Args[1:], &syscall.ProcAttr{Env: os.Environ()})
	if err != nil {
		panic(err)
	}
	var status syscall.WaitStatus
	var usage syscall.Rusage
	syscall.Wait4(pid, &status, 0, &usage)
	print(usage.Maxrss)
	os.Exit(status.ExitStatus())
}
`

// programs builds the Go programs and finds MetaPost.
func (b *bench) programs() {
	b.self, b.hello = filepath.Join(b.dir, "seamwright"), filepath.Join(b.dir, "hello")
	b.gauge = filepath.Join(b.dir, "gauge")
	quiet("go", "build", "-o", b.self, "./cmd/seamwright")
	for name, text := range map[string]string{b.hello: helloText, b.gauge: gaugeText} {
		must(os.WriteFile(name+".go", []byte(text), 0o666))
		quiet("go", "build", "-o", name, name+".go")
	}
	for _, name := range []string{b.self, b.hello} {
		install(name)
	}
	b.mpost, _ = exec.LookPath("mpost")
}

// install writes a program anew in one piece, as copying it to where programs are does. The
// linker writes bit by bit, and Linux then maps it so: each start takes longer, by a tenth
// for a large program.
func install(name string) {
	data, err := os.ReadFile(name)
	must(err)
	must(os.Remove(name))
	must(os.WriteFile(name, data, 0o755))
}

// measured is the build that is timed: what is printed and cut from, with every
// check; no report, no data for other programs, no PDF.
func measured(pattern string) []string {
	return []string{"build", "--format", "svg", "--only", "sheets,diagrams,tables", pattern}
}

func (b *bench) table() {
	fmt.Printf("%s, %d processors, %s; medians of %d runs\n\n", cpu(), runtime.NumCPU(), runtime.Version(), b.runs)
	fmt.Println("| pieces | build | one word in Go | MetaPost | build / Go | build / MetaPost | peak memory |")
	fmt.Println("|---:|---:|---:|---:|---:|---:|---:|")
	var notes []string
	var small time.Duration
	for _, r := range reaches() {
		pattern := filepath.Join(b.dir, fmt.Sprintf("wall%d.seam", r.pieces))
		must(os.WriteFile(pattern, []byte(grid(r.pieces)), 0o666))
		out := filepath.Join(b.dir, fmt.Sprintf("wall%d-out", r.pieces))
		os.RemoveAll(out)
		quiet(b.self, "build", "--format", "svg", pattern)
		drawing := b.metapost(out, r.pieces)
		var ours, hello, mpost []time.Duration
		for range b.runs {
			os.RemoveAll(out)
			ours = append(ours, run("", b.self, measured(pattern)...))
			hello = append(hello, run("", b.hello))
			if b.mpost != "" {
				mpost = append(mpost, run(b.dir, b.mpost, "-interaction=batchmode", drawing))
			}
		}
		our, its, draws := median(ours), median(hello), median(mpost)
		memory := b.memory(out, measured(pattern))
		fmt.Printf("| %d | %s | %s | %s | %.2f | %s | %.1f MB |\n", r.pieces, ms(our), ms(its), ms(draws),
			ratio(our, its), ratioText(our, draws), memory)
		notes = append(notes, b.judge(r, our, its, draws, memory)...)
		if r.pieces == 1000 {
			small = our
		}
		if r.pieces == 10000 {
			each := (our - small) / 9000
			notes = append(notes, b.note(each <= longestPiece, "one more piece costs %.1f µs between 1,000 and 10,000; reach %v", float64(each)/1e3, longestPiece))
		}
	}
	notes = append(notes, b.check())
	notes = append(notes, b.catalogue(fmt.Sprintf("wall%d.mp", cataloguedPieces))...)
	notes = append(notes, b.paper()...)
	b.tell(append(notes, b.rebuild()...))
}

func (b *bench) tell(notes []string) {
	fmt.Println()
	for _, n := range notes {
		fmt.Println("-", n)
	}
}

func (b *bench) judge(r reach, our, hello, mpost time.Duration, memory float64) (notes []string) {
	if r.hello > 0 {
		notes = append(notes, b.note(ratio(our, hello) <= r.hello, "%d pieces take %.2f times the Go program; reach %.1f", r.pieces, ratio(our, hello), r.hello))
	}
	if r.mpost > 0 && mpost > 0 {
		notes = append(notes, b.note(ratio(our, mpost) <= r.mpost, "%d pieces take %.2f times MetaPost; reach %.1f", r.pieces, ratio(our, mpost), r.mpost))
	}
	if r.memory > 0 {
		notes = append(notes, b.note(memory <= r.memory, "%d pieces need %.1f MB; reach %.0f MB", r.pieces, memory, r.memory))
	}
	return notes
}

// check measures `seamwright check` of a text of about 3 KB.
func (b *bench) check() string {
	pattern := filepath.Join(b.dir, "check.seam")
	text := grid(64)
	must(os.WriteFile(pattern, []byte(text), 0o666))
	var ours, hello []time.Duration
	for range b.runs {
		ours = append(ours, run("", b.self, "check", pattern))
		hello = append(hello, run("", b.hello))
	}
	times := ratio(median(ours), median(hello))
	return b.note(times <= 2, "`check` of %d bytes takes %s, %.2f times the Go program; reach 2", len(text), ms(median(ours)), times)
}

func (b *bench) note(met bool, format string, args ...any) string {
	word := "met:    "
	if !met {
		word = "missed: "
		b.missed++
	}
	return word + fmt.Sprintf(format, args...)
}

// metapost writes a program that draws the polygons of a build's pattern.json.
func (b *bench) metapost(out string, pieces int) string {
	data, err := os.ReadFile(filepath.Join(out, "pattern.json"))
	must(err)
	polygons := findPolygons(data)
	if len(polygons) != pieces {
		log.Fatalf("pattern.json has %d polygons of pieces, not %d", len(polygons), pieces)
	}
	most := 0.0
	for _, p := range polygons {
		for _, c := range p {
			most = max(most, c[0], c[1])
		}
	}
	scale := 3000 / most // MetaPost's plain numbers end at 4096
	var s strings.Builder
	s.WriteString("outputformat := \"svg\";\nbeginfig(1)\n")
	for _, p := range polygons {
		s.WriteString("draw ")
		for _, c := range p {
			fmt.Fprintf(&s, "(%.4f,%.4f)--", c[0]*scale, c[1]*scale)
		}
		s.WriteString("cycle;\n")
	}
	s.WriteString("endfig;\nend\n")
	name := fmt.Sprintf("wall%d.mp", pieces)
	must(os.WriteFile(filepath.Join(b.dir, name), []byte(s.String()), 0o666))
	return name
}

// findPolygons takes the polygon of every piece of the first finished size.
func findPolygons(data []byte) [][][2]float64 {
	var file struct {
		Blocks []struct {
			Sizes []struct {
				Sections []struct {
					Pieces []struct {
						Polygon [][2]float64 `json:"polygon"`
					} `json:"pieces"`
				} `json:"sections"`
			} `json:"sizes"`
		} `json:"blocks"`
	}
	must(json.Unmarshal(data, &file))
	var all [][][2]float64
	for _, s := range file.Blocks[0].Sizes[0].Sections {
		for _, p := range s.Pieces {
			all = append(all, p.Polygon)
		}
	}
	return all
}

// memory is the peak resident set of a build, in MB: the largest of three.
func (b *bench) memory(out string, build []string) float64 {
	most := 0.0
	for range 3 {
		os.RemoveAll(out)
		c := exec.Command(b.gauge, append([]string{b.self}, build...)...)
		var shown strings.Builder
		c.Stderr = &shown
		must(c.Run())
		var kb float64
		text := shown.String()
		_, err := fmt.Sscan(text[strings.LastIndexByte(text, '\n')+1:], &kb)
		must(err)
		most = max(most, kb/1024)
	}
	return most
}

// run returns how long a program takes.
func run(dir, name string, args ...string) time.Duration {
	c := exec.Command(name, args...)
	c.Dir = dir
	var shown strings.Builder
	c.Stderr = &shown
	begun := time.Now()
	err := c.Run()
	took := time.Since(begun)
	if err != nil {
		log.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, shown.String())
	}
	return took
}

func median(all []time.Duration) time.Duration {
	if len(all) == 0 {
		return 0
	}
	slices.Sort(all)
	return all[len(all)/2]
}

func ratio(a, b time.Duration) float64 { return float64(a) / float64(b) }

func ratioText(a, b time.Duration) string {
	if b == 0 {
		return "-"
	}
	return fmt.Sprintf("%.2f", ratio(a, b))
}

func ms(d time.Duration) string {
	if d == 0 {
		return "not installed"
	}
	return fmt.Sprintf("%.1f ms", float64(d)/1e6)
}

// cpu names the processor, where Linux tells.
func cpu() string {
	data, _ := os.ReadFile("/proc/cpuinfo")
	for _, line := range strings.Split(string(data), "\n") {
		if name, ok := strings.CutPrefix(line, "model name"); ok {
			return strings.TrimSpace(strings.TrimLeft(name, "\t: "))
		}
	}
	return runtime.GOARCH
}

func quiet(name string, args ...string) {
	if out, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		log.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
}

func must(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
