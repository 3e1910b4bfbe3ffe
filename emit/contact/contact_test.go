package contact_test

import (
	"fmt"
	"strings"
	"testing"

	"seamwright/emit/contact"
	"seamwright/emit/drawing"
	"seamwright/emit/internal/sample"
)

// Everything lies on the page, texts do not run into the next column or row, and
// each variant has its picture or its fault.
func TestPage(t *testing.T) {
	p := sample.Star()
	for _, n := range []int{1, 2, 5, 6, 40} {
		var list []contact.Variant
		for i := range n {
			v := contact.Variant{Name: fmt.Sprintf("points %d, a parameter of a long name %d", i, i), Pattern: p,
				Facts: []string{"8 sections, 2 drawings, 24 pieces", "4 points to match", "with care: comfortable from 12.3 in"}}
			if i%4 == 3 {
				v = contact.Variant{Name: "none", Fault: strings.Repeat("a long reason why it can't be made ", 9)}
			}
			list = append(list, v)
		}
		page := contact.Page("Variants of "+strings.Repeat("a very long name ", 20), strings.Repeat("a long note that explains the facts ", 9), list, 0)
		paths := 0
		var texts []*drawing.Text
		var look func(items []drawing.Item)
		look = func(items []drawing.Item) {
			for _, i := range items {
				switch i := i.(type) {
				case *drawing.Group:
					look(i.Items)
				case *drawing.Text:
					texts = append(texts, i)
				case *drawing.Path:
					paths++
					for _, q := range i.Points {
						if q.X < 0 || q.Y < 0 || q.X > page.Size.W || q.Y > page.Size.H {
							t.Fatalf("%d: %v lies off the page", n, q)
						}
					}
				}
			}
		}
		look(page.Items)
		if paths < n {
			t.Errorf("%d variants, %d shapes", n, paths)
		}
		for i, a := range texts {
			wide := drawing.Measure(a.Text, a.Size, a.Bold).Width
			if a.At.X+wide > page.Size.W || a.At.Y > page.Size.H {
				t.Errorf("%d: %q runs off the page", n, a.Text)
			}
			for _, b := range texts[i+1:] {
				if b.At.X < a.At.X+wide && a.At.X < b.At.X+drawing.Measure(b.Text, b.Size, b.Bold).Width &&
					b.At.Y-b.Size < a.At.Y+a.Size/4 && a.At.Y-a.Size < b.At.Y+b.Size/4 && a.At.Y != b.At.Y {
					t.Errorf("%d: %q runs into %q", n, a.Text, b.Text)
				}
			}
		}
	}
}
