package eval

import (
	"strings"
	"testing"

	"seamwright/lang"
	"seamwright/lang/problem"
)

// loopOf is a block of one section whose pieces come from a loop.
func loopOf(pieces string) string {
	return sky + `fabric sea dark #25525e
block b 100 x 100 finished 100in {
  section A {
    1 sky at (50, 99.9)
    for i in 1..` + pieces + ` {
      let low = 99 - i / 200
      piece if odd(i) then sea else sky along (0, low) -- polar(100, 0deg) + (0, low + sin(1deg * i) / 1000)
    }
  }
}
`
}

// writtenOut is the same without a loop: as many statements as pieces.
func writtenOut(pieces int) string {
	var b strings.Builder
	b.WriteString(sky + "block b 100 x 100 finished 100in {\n  section A {\n    1 sky at (50, 99.9)\n")
	for i := range pieces {
		b.WriteString("    piece sky along (0, " + itoa(99-i/200) + ") -- (100, " + itoa(99-i/200) + ".5)\n")
	}
	b.WriteString("  }\n}\n")
	return b.String()
}

func benchmark(b *testing.B, text string, nodes float64) {
	f, problems := lang.Parse(&problem.Source{Name: "b.seam", Text: text})
	if len(problems) > 0 {
		b.Fatal(show(problems))
	}
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		if r := Evaluate(f, nil); len(r.Problems) > 0 {
			b.Fatal(show(r.Problems))
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/nodes, "ns/node")
}

// A round of the loop has 27 expressions and 3 statements.
func BenchmarkLoop10000(b *testing.B)       { benchmark(b, loopOf("10000"), 10000*30) }
func BenchmarkLoop100(b *testing.B)         { benchmark(b, loopOf("100"), 100*30) }
func BenchmarkWrittenOut10000(b *testing.B) { benchmark(b, writtenOut(10000), 10000*9) }

// Ten thousand places of one unit with an argument.
func BenchmarkPlaces10000(b *testing.B) {
	benchmark(b, sky+`unit u(k: number) 1 x 1 { section { 1 sky at c + (k, 0) - (k, 0) } }
block b 100 x 100 finished 100in {
  for i in 0..99 { for j in 0..99 { place u(mod(i, 3)) by c at (i + 0.5, j + 0.5) turn 90deg * i } }
}`, 10000*20)
}

func BenchmarkSmallBlock(b *testing.B) {
	benchmark(b, "pattern \"P\" { edition 1 }\n"+three, 20)
}
