package lsp

import (
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"

	"seamwright/cmd/internal/lsp/wire"
)

// pieces of text that count differently in bytes, characters and UTF-16 units.
var odd = []string{"a", " ", "é", "e\u0301", "𝒜", "👩🏽‍🚀", "\u2028", "\n", "\r\n", "\r", "\t", "½", "\uFEFF", "�"}

// Places go to the editor and come back, and count as the standard library's
// encoder of UTF-16 does.
func TestPlacesGoThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.SampledFrom(odd), 0, 40).Draw(t, "parts")
		s := strings.Join(parts, "")
		bytes := rapid.Bool().Draw(t, "utf-8")
		text := newText("t", s, bytes)
		at := 0
		for i := 0; i <= len(s); i++ {
			if i < len(s) && s[i]&0xC0 == 0x80 {
				continue // within a character
			}
			p := text.position(int32(i))
			if within := i > 0 && i < len(s) && s[i] == '\n' && s[i-1] == '\r'; !within {
				if back := text.offset(p); int(back) != i {
					t.Fatalf("%q: offset %d is told as %v, which is %d", s, i, p, back)
				}
			}
			before := s[:i]
			cut := max(strings.LastIndex(before, "\n"), lastLone(s, i)) + 1
			want := len(utf16.Encode([]rune(strings.TrimSuffix(before[cut:], "\r"))))
			if bytes {
				want = len(strings.TrimSuffix(before[cut:], "\r"))
			}
			if p.Character != want {
				t.Fatalf("%q: offset %d is told as character %d, want %d", s, i, p.Character, want)
			}
			at++
		}
	})
}

// lastLone is the last \r before i that ends a line by itself, or -1.
func lastLone(s string, i int) int {
	for k := i - 1; k >= 0; k-- {
		if s[k] == '\r' && !(k+1 < len(s) && s[k+1] == '\n') {
			return k
		}
	}
	return -1
}

// Any place an editor may send is somewhere in the text, between characters.
func TestAnyPlaceIsInTheText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOfN(rapid.SampledFrom(odd), 0, 20).Draw(t, "parts"), "")
		text := newText("t", s, rapid.Bool().Draw(t, "utf-8"))
		p := wire.Position{Line: rapid.IntRange(-2, 30).Draw(t, "line"), Character: rapid.IntRange(-2, 30).Draw(t, "character")}
		at := int(text.offset(p))
		if at < 0 || at > len(s) || at < len(s) && s[at]&0xC0 == 0x80 {
			t.Fatalf("%q: %v is offset %d", s, p, at)
		}
	})
}

// What stands in both texts alike is followed to where it stands.
func TestFollowing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		head := rapid.StringMatching(`[ab\n]{0,8}`).Draw(t, "head")
		tail := rapid.StringMatching(`[ab\n]{0,8}`).Draw(t, "tail")
		from := head + rapid.StringMatching(`[ab\n]{0,3}`).Draw(t, "old") + tail
		to := head + rapid.StringMatching(`[ab\n]{0,3}`).Draw(t, "new") + tail
		follow := followed(from, to)
		for i := 0; i < len(from); i++ {
			if j, ok := follow(int32(i)); ok && (int(j) >= len(to) || to[j] != from[i]) {
				t.Fatalf("%q, %q: %d is followed to %d", from, to, i, j)
			}
		}
	})
}
