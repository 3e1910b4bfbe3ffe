package vscode_test

import (
	"encoding/json"
	"os"
	"testing"
)

// What the extension says it brings along is there and is read, and editors are
// told of the language by the names that the grammar has.
func TestTheExtensionIsWhole(t *testing.T) {
	var p struct {
		Main         string
		Files        []string
		Dependencies map[string]string
		Bundled      []string `json:"bundleDependencies"`
		Contributes  struct {
			Languages []struct {
				ID, Configuration string
				Extensions        []string
			}
			Grammars []struct{ Language, Path, ScopeName string }
		}
	}
	read(t, "package.json", &p)
	for _, f := range append([]string{p.Main}, p.Files...) {
		if _, err := os.Stat(f); err != nil && f != "node_modules/" { // npm makes that one
			t.Error(err)
		}
	}
	for _, b := range p.Bundled {
		if p.Dependencies[b] == "" {
			t.Errorf("%s is bundled, and no dependency", b)
		}
	}
	c := p.Contributes
	if len(c.Languages) != 1 || len(c.Grammars) != 1 || c.Grammars[0].Language != c.Languages[0].ID {
		t.Fatalf("one language and its grammar are wanted: %+v", c)
	}
	var anything map[string]any
	read(t, c.Languages[0].Configuration, &anything)
	g := readGrammar(t)
	if g.ScopeName != c.Grammars[0].ScopeName || len(g.FileTypes) != 1 || "."+g.FileTypes[0] != c.Languages[0].Extensions[0] {
		t.Errorf("the grammar is %s for %v, the extension wants %+v", g.ScopeName, g.FileTypes, c)
	}
	if _, err := os.Stat(c.Grammars[0].Path); err != nil {
		t.Error(err)
	}
}

func read(t *testing.T, path string, into any) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
}
