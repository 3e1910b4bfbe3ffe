package lang

import (
	"fmt"
	"strings"
	"testing"
)

// longText is a pattern of so many pieces written out.
func longText(pieces int) string {
	var b strings.Builder
	b.WriteString("fabric sky \"sky\" light #dfeaf0\nfabric sea \"sea\" dark #20406a\n\nblock boat 400 x 400 finished 8in {\n")
	for i := range pieces {
		if i%10 == 0 {
			if i > 0 {
				b.WriteString("  }\n")
			}
			fmt.Fprintf(&b, "  section {  // number %d\n    1 sky   at (%d, 3.5)\n", i/10, i)
			continue
		}
		fmt.Fprintf(&b, "    %d sea   along (1, %d) -- (step, 6 1/2 + %d * 2)\n", i%10+1, i, i)
	}
	b.WriteString("  }\n}\n")
	return b.String()
}

func BenchmarkParse(b *testing.B) {
	for _, pieces := range []int{50, 10_000} {
		text := longText(pieces)
		b.Run(fmt.Sprintf("%dKB", len(text)>>10), func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				if _, problems := parse(text); len(problems) > 0 {
					b.Fatal(problems[0].Message)
				}
			}
		})
	}
}

// A hundred mistakes must not be much slower than none.
func BenchmarkParseMistakes(b *testing.B) {
	text := strings.ReplaceAll(longText(1000), "along", "alog")
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		parse(text)
	}
}

func BenchmarkFormat(b *testing.B) {
	text := longText(1000)
	file, _ := parse(text)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		Format(file)
	}
}
