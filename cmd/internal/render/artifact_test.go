package render

import (
	"net/url"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Held to the standard library, which is too dear for every start: the same URI,
// from which the same name can be read.
func TestArtifact(t *testing.T) {
	if got := artifact("a b/möwe 100%.seam").URI; got != "a%20b/m%C3%B6we%20100%25.seam" {
		t.Errorf("escaped as %s", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`/?[a-zA-Z0-9 ._~!$&'()*+,;=:@%?#"<>|^{}öß€\n-]{1,12}(/[a-z :%#ö]{1,6})*`).Draw(t, "name")
		want := url.URL{Path: name}
		if filepath.IsAbs(name) {
			want.Scheme = "file"
		}
		got := artifact(name).URI
		if name != "*" && got != want.String() {
			t.Fatalf("%q is named %s, not %s", name, got, want.String())
		}
		read, err := url.Parse(got)
		if err != nil || strings.TrimPrefix(read.Path, "./") != strings.TrimPrefix(name, "./") {
			t.Fatalf("%q cannot be read from %s: %v", name, got, err)
		}
	})
}
