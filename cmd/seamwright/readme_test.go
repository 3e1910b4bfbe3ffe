package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func page(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestReadme holds the pages to the program: their patterns compile without a
// problem, their commands run, their links lead somewhere.
func TestReadme(t *testing.T) {
	for _, name := range []string{"README.md", "DEVELOPERS.md"} {
		text := page(t, name)
		for _, block := range regexp.MustCompile("(?s)```seam\n(.*?)```").FindAllStringSubmatch(text, -1) {
			for _, p := range raised(t, block[1]) {
				t.Errorf("%s: an example raises %s: %s", name, p.Code, p.Message)
			}
		}
		for _, link := range regexp.MustCompile(`\]\(([^)#]+)(#[^)]*)?\)`).FindAllStringSubmatch(text, -1) {
			if strings.Contains(link[1], "://") {
				continue
			}
			if _, err := os.Stat(filepath.Join("..", "..", link[1])); err != nil {
				t.Errorf("%s: the link %s leads nowhere", name, link[1])
			}
		}
	}
	readme := page(t, "README.md")
	example := regexp.MustCompile("(?s)```seam\n(.*?)```").FindStringSubmatch(readme)[1]
	shown := regexp.MustCompile("(?s)```text\n(pier_light.seam:.*?)```").FindStringSubmatch(readme)[1]
	dir := t.TempDir()
	wrong := strings.Replace(example, "2 night", "2 nihgt", 1)
	if err := os.WriteFile(filepath.Join(dir, "pier_light.seam"), []byte(wrong), 0o666); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(shown, runIn(t, dir, "check", "pier_light.seam").stderr); d != "" {
		t.Errorf("the README shows a problem as it is not told (-shown +told):\n%s", d)
	}
	for _, v := range verbs() {
		if !strings.Contains(readme, "| `"+v.name+" ") {
			t.Errorf("the README does not tell of %s", v.name)
		}
	}
}

// The first command of the README, run in a copy of the examples, writes the kinds
// of file that the README lists, and no others.
func TestReadmeBuild(t *testing.T) {
	_, files, _ := strings.Cut(page(t, "README.md"), "## What is written where")
	files, _, _ = strings.Cut(files, "\n## ")
	command := regexp.MustCompile(`(?m)^    go run \./cmd/seamwright (build .*)$`).FindStringSubmatch(page(t, "README.md"))
	if command == nil {
		t.Fatal("the README has no command to build with")
	}
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "examples"), os.DirFS(filepath.Join("..", "..", "examples"))); err != nil {
		t.Fatal(err)
	}
	r := runIn(t, dir, strings.Fields(command[1])...)
	if r.code != good || strings.Contains(r.stderr, ": error ") {
		t.Fatalf("exit code %d: %s", r.code, r.stderr)
	}
	written := map[string]bool{}
	for path := range tree(t, filepath.Join(dir, "examples", "harbour_boat-out")) {
		name := regexp.MustCompile(`-[0-9.x]+(in|cm)\.`).ReplaceAllString(filepath.Base(path), ".") // of a size that differs
		name = regexp.MustCompile(`-[0-9]+\.`).ReplaceAllString(name, "-1.")                        // the first stands for all
		name = regexp.MustCompile(`^colorway-[^.]+`).ReplaceAllString(name, "colorway-NAME")
		name = regexp.MustCompile(`^quilt-[^.]+`).ReplaceAllString(name, "quilt-COLORWAY")
		written[name] = true
	}
	told := map[string]bool{}
	for _, row := range regexp.MustCompile("(?m)^\\| (`.*) \\| ").FindAllStringSubmatch(files, -1) {
		for _, name := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(row[1], -1) {
			told[filepath.Base(name[1])] = true
		}
	}
	if d := cmp.Diff(told, written); d != "" {
		t.Errorf("the README's table of files (-) and what is written (+):\n%s", d)
	}
}
