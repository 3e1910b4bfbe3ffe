package main

import (
	"fmt"
	"maps"
	"os/exec"
	"runtime"
	"slices"

	"seamwright/cmd/internal/live"
	"seamwright/compiler/pattern"
	"seamwright/compiler/rules"
	"seamwright/emit"
	"seamwright/emit/report"
	"seamwright/emit/sheet"
	"seamwright/lang/problem"
)

// show shows what was made. Of a bad pattern the page shows the problems, and goes on
// showing the last good one.
func (w *watching) show(b *built) {
	s := &w.shown
	was := s.Good || s.Held
	s.File, s.Problems, s.Held = w.name, b.problems, b.held
	s.Good = !problem.Failed(b.problems)
	switch {
	case s.Good || s.Held:
		s.Sources, s.Built, s.Pattern = texts(w.name, b.texts), nil, b.data
	case len(b.texts) > 0:
		if was {
			s.Built = s.Sources
		}
		s.Sources = texts(w.name, b.texts)
	}
	w.server.Show(s)
}

// ready serves the files that were made. A problem that only they brought to
// light is shown now.
func (w *watching) ready(b *built) {
	if len(b.problems) != len(w.shown.Problems) {
		w.shown.Problems, w.shown.Good = b.problems, !problem.Failed(b.problems)
		w.server.Show(&w.shown)
	}
	if b.outputs == nil {
		return
	}
	w.server.Ready(b.outputs)
}

func texts(home string, all []*problem.Source) []live.Text {
	out := make([]live.Text, len(all))
	for i, src := range all {
		out[i] = live.Text{File: src.Name, Text: src.Text}
		if i > 0 {
			out[i].Name = report.PathFrom(home, src.Name)
		}
	}
	return out
}

// fitting finds on which of the two papers that buyers have each size can be
// printed. It lays out every sheet again.
func fitting(p *pattern.Pattern) []live.Fit {
	var fits []live.Fit
	for i := range p.Blocks {
		for j := range p.Blocks[i].Sizes {
			only := *p
			only.Blocks = []pattern.Block{p.Blocks[i]}
			only.Blocks[0].Sizes = p.Blocks[i].Sizes[j : j+1]
			on := map[string]string{}
			for _, paper := range []struct{ name, words string }{{"letter", "Letter"}, {"a4", "A4"}} {
				named, _ := pattern.SheetNamed(paper.name)
				on[paper.words] = fit(emit.Check(&only, emit.Options{Sheet: &named}))
			}
			fits = append(fits, live.Fit{Block: p.Blocks[i].Name, Size: j, On: on})
		}
	}
	return fits
}

// layers counts how thick the cloth lies in each size.
func layers(p *pattern.Pattern) []live.Thick {
	all := []live.Thick{}
	for i := range p.Blocks {
		b := &p.Blocks[i]
		for j := range b.Sizes {
			t := live.Thick{Block: b.Name, Size: j, Points: [][3]float64{}}
			for _, s := range rules.Thick(p, b, &b.Sizes[j]) {
				t.Points = append(t.Points, [3]float64{float64(s.At.X), float64(s.At.Y), float64(s.Layers)})
			}
			all = append(all, t)
		}
	}
	return all
}

// fit words the problems of paper.
func fit(ps []problem.Problem) string {
	switch {
	case problem.Failed(ps):
		return "no"
	case slices.ContainsFunc(ps, func(p problem.Problem) bool { return p.Code == sheet.InParts }):
		return "parts"
	}
	return "fits"
}

func sameFit(a, b live.Fit) bool {
	return a.Block == b.Block && a.Size == b.Size && maps.Equal(a.On, b.On)
}

// browse opens an address in the person's browser. Where that fails the address
// is on the terminal.
func (c *call) browse(address string) {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	command := exec.Command(name, args...)
	if err := command.Start(); err != nil {
		fmt.Fprintf(c.stderr, "seamwright: no browser can be opened: %v\n", err)
		return
	}
	go command.Wait()
}
