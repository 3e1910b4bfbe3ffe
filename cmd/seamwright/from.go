package main

import (
	"fmt"
	"strconv"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/trace"
	"seamwright/lang/problem"
)

// fromDrawing writes a pattern after a drawing.
func (c *call) fromDrawing(drawing, file, base, snap string) int {
	r := &reporter{call: c, format: "text"}
	part, err := partOf(snap)
	if err != nil {
		return c.misused("--snap: %v", err)
	}
	src, fault := files.Read(drawing, c.stdin)
	if fault != nil {
		r.tell([]problem.Problem{*fault})
		return r.end()
	}
	named := problem.Source{Name: drawing}
	d, err := trace.Read([]byte(src.Text))
	if d != nil && len(d.LeftOut) > 0 {
		r.tell([]problem.Problem{leftOut(&named, d.LeftOut)})
	}
	var made *trace.Traced
	if err == nil {
		made, err = d.Text(trace.Options{Name: blockName(base), Title: title(base), Snap: part})
	}
	if err != nil {
		r.tell([]problem.Problem{{Code: trace.NoDrawing, At: problem.Place{Source: &named}, Message: "this can't be used as a drawing: " + err.Error(),
			Help: "save the drawing as a plain SVG, with its patches as straight lines or polygons"}})
		return r.end()
	}
	if fault := files.Create(file, []byte(made.Text)); fault != nil {
		r.tell([]problem.Problem{*fault})
		return r.end()
	}
	c.tellTraced(made, file, part)
	return r.end()
}

// partOf reads a part of a side: 1/200 or 0.005.
func partOf(text string) (float64, error) {
	above, below, divided := strings.Cut(text, "/")
	a, err := strconv.ParseFloat(strings.TrimSpace(above), 64)
	b := 1.0
	if err == nil && divided {
		b, err = strconv.ParseFloat(strings.TrimSpace(below), 64)
	}
	if err != nil || !(a > 0 && b > 0) {
		return 0, fmt.Errorf("%q is no part of a side, like 1/256", text)
	}
	return a / b, nil
}

// shownLeft is how many parts that were left out are named.
const shownLeft = 12

func leftOut(src *problem.Source, list []trace.LeftOut) problem.Problem {
	p := problem.Problem{Code: trace.PartsLeft, Severity: problem.Warning, At: problem.Place{Source: src},
		Help: "draw curves as straight parts, and give shapes their own colors; or do without"}
	p.Message = "left out of the drawing: "
	for i, l := range list {
		if i == shownLeft {
			p.Message += fmt.Sprintf(" and %d more", len(list)-i)
			break
		}
		if i > 0 {
			p.Message += ", "
		}
		p.Message += l.ID + " (" + l.What + ")"
	}
	return p
}

// tellFrame says what was taken for the block, where that was a choice.
func (c *call) tellFrame(f *trace.Frame) {
	switch f.What {
	case trace.AllDrawn:
		return
	case trace.Page:
		fmt.Fprint(c.stdout, "\nThe block is the page, for what is drawn runs up to its edge")
	case trace.Rectangle:
		fmt.Fprintf(c.stdout, "\nThe block is the rectangle %s", f.ID)
		if f.Over > 0 {
			over := many(f.Over, "line") + " run out over it and end on its edge"
			if f.Over == 1 {
				over = "1 line runs out over it and ends on its edge"
			}
			fmt.Fprint(c.stdout, "; "+over)
		}
		for i, l := range f.Outside {
			switch {
			case i == shownLeft:
				fmt.Fprintf(c.stdout, " and %d more", len(f.Outside)-i)
			case i > shownLeft:
			case i == 0:
				fmt.Fprintf(c.stdout, "; outside of it, and left out: %s", l.ID)
			default:
				fmt.Fprintf(c.stdout, ", %s", l.ID)
			}
		}
	}
	fmt.Fprint(c.stdout, ". Draw a rectangle round all of it to have it otherwise.")
}

func (c *call) tellTraced(t *trace.Traced, file string, part float64) {
	if t.Patches > 0 {
		fmt.Fprintf(c.stdout, "%s is written: %s in %s", file, strings.Replace(many(t.Patches, "patche"), "1 patche", "1 patch", 1), many(t.Fabrics, "fabric"))
	} else {
		fmt.Fprintf(c.stdout, "%s is written: %s, which make no patches yet", file, many(t.Lines, "line"))
	}
	fmt.Fprintf(c.stdout, ", on %.5g x %.5g squares", t.W, t.H)
	if t.Parts > 1 {
		fmt.Fprintf(c.stdout, " with points on each 1/%d of one", t.Parts)
	}
	if t.Repeats > 0 {
		fmt.Fprintf(c.stdout, "; %d placed units", t.Repeats)
	}
	c.tellFrame(&t.Frame)
	fmt.Fprintf(c.stdout, "\nPoints nearer than %.3g squares were taken as one (--snap 1/%.4g)", t.Near, 1/part)
	if t.Off > 0 {
		fmt.Fprintf(c.stdout, "; %d of them lie beside the grid and are written in decimals", t.Off)
	}
	fmt.Fprintf(c.stdout, "\nName the fabrics and choose the finished sizes, then: seamwright check %s\n", file)
}
