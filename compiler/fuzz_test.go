package compiler_test

import (
	"math"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"seamwright/compiler/piecing"
	"seamwright/lang/problem"
)

// FuzzCompile feeds the compiler any text: it never panics, tells an error
// wherever there is no pattern, gives the same answer twice, and every number of
// a pattern is finite.
func FuzzCompile(f *testing.F) {
	for _, c := range piecing.Codes() {
		f.Add(c.Example)
		f.Add(c.Cured)
	}
	// Found by this test: the same fault, told once, in a unit and in the block.
	f.Add("fabric sky light #dfeaf0\nblock b 4 x 4 finished 4in, 8in {\n  join w -- e from 6in\n}\n")
	f.Add("fabric sky light #dfeaf0\nunit half 4 x 2 { section { 1 sky a c\nblock b 4 x 4 finished 4in {\n place half at sw place half at w join s -- c from 1in")
	f.Add("BoCk 1x1{AeCtio") // a section without a body
	examples, err := filepath.Glob("../examples/*.seam")
	if err != nil || len(examples) == 0 {
		f.Fatal("no examples", err)
	}
	for _, name := range examples {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 4000 {
			return // long texts only slow the search down
		}
		p, ps := compile(text)
		if (p == nil) != problem.Failed(ps) {
			t.Fatalf("pattern %v, but problems\n%s", p != nil, show(ps))
		}
		q, qs := compile(text)
		if show(ps) != show(qs) || !reflect.DeepEqual(p, q) {
			t.Fatal("two runs differ")
		}
		if p == nil {
			return
		}
		for i := range p.Blocks {
			if len(p.Blocks[i].Sizes) == 0 {
				t.Fatalf("block %s has no sizes, and nothing was told", p.Blocks[i].Name)
			}
			finite(t, reflect.ValueOf(p.Blocks[i].Sizes))
		}
	})
}

// finite walks a value and looks for numbers that are none.
func finite(t *testing.T, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			t.Fatal("a number that is not finite")
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			finite(t, v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, v.Field(i))
		}
	}
}
