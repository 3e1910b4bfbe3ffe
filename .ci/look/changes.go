package main

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"html/template"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// A change is one drawing before and after; nil where there is none.
type change struct {
	Name        string
	Before, Now []byte
}

// URL gives a picture as an address that is the picture itself.
func (c *change) URL(data []byte) template.URL {
	kind := "image/svg+xml"
	if strings.HasSuffix(c.Name, ".png") {
		kind = "image/png"
	}
	return template.URL("data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(data))
}

// mostShown keeps the page small enough for a browser.
const mostShown = 300

// changes makes the page.
func changes(against string) ([]byte, error) {
	all, err := expected()
	title := "Expected pictures of the tests: the last commit, and now"
	if against != "" {
		all, err = drawn(against)
		title = "Drawings of the examples: " + against + ", and now"
	}
	if err != nil {
		return nil, err
	}
	before := len(all)
	all = slices.DeleteFunc(all, func(c change) bool { return looksSame(&c) })
	slices.SortFunc(all, func(a, b change) int { return strings.Compare(a.Name, b.Name) })
	return show(title, all, before-len(all))
}

// show writes the page. Of so many others only the bytes have changed.
func show(title string, all []change, alike int) ([]byte, error) {
	more := max(0, len(all)-mostShown)
	var b bytes.Buffer
	err := template.Must(template.New("page").Parse(page)).Execute(&b, map[string]any{"Title": title, "All": all[:len(all)-more], "Count": len(all), "Alike": alike, "More": more})
	return b.Bytes(), err
}

const page = `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1"><title>{{.Title}}</title>
<style>
:root{color-scheme:light dark}
body{margin:1rem;font:1rem/1.4 system-ui,sans-serif}
.row{display:grid;grid-template-columns:repeat(auto-fit,minmax(16rem,1fr));gap:1rem;margin-bottom:2rem}
figure{margin:0}
img{display:block;width:100%;background:#fff;border:1px solid #888}
.both{position:relative;isolation:isolate}
.both img+img{position:absolute;inset:0;mix-blend-mode:difference}
</style></head><body>
<h1>{{.Title}}</h1>
<p>{{.Count}} changed{{if .Alike}}, and {{.Alike}} more in their bytes only{{end}}. In the difference what is the same is black.</p>
{{range .All}}{{$c := .}}<h2>{{.Name}}</h2>
<div class="row">
<figure><figcaption>Expected</figcaption>{{if .Before}}<img alt="before" src="{{$c.URL .Before}}">{{else}}<p>There was none.</p>{{end}}</figure>
<figure><figcaption>Got</figcaption>{{if .Now}}<img alt="now" src="{{$c.URL .Now}}">{{else}}<p>There is none.</p>{{end}}</figure>
{{if and .Before .Now}}<figure><figcaption>Difference</figcaption><div class="both"><img alt="" src="{{$c.URL .Before}}"><img alt="difference" src="{{$c.URL .Now}}"></div></figure>{{end}}
</div>
{{end}}{{if .More}}<p>{{.More}} more are not shown.</p>{{end}}
</body></html>
`

// git runs git and returns what it says.
func git(args ...string) ([]byte, error) {
	out, err := exec.Command("git", args...).Output()
	if err != nil {
		return nil, fmt.Errorf("git %s: %w", strings.Join(args, " "), err)
	}
	return out, nil
}

// expected compares the pictures in the working folder with those of the last
// commit.
func expected() (all []change, err error) {
	kinds := []string{"--", "*.svg", "*.png"}
	differ, err := git(append([]string{"diff", "--name-only", "-z", "HEAD"}, kinds...)...)
	if err != nil {
		return nil, err
	}
	fresh, err := git(append([]string{"ls-files", "--others", "--exclude-standard", "-z"}, kinds...)...)
	if err != nil {
		return nil, err
	}
	for _, name := range strings.FieldsFunc(string(differ)+string(fresh), func(r rune) bool { return r == 0 }) {
		c := change{Name: name}
		c.Before, _ = git("show", "HEAD:"+name) // none where it is new
		c.Now, _ = os.ReadFile(name)            // none where it is gone
		all = append(all, c)
	}
	return all, nil
}

// drawn builds all examples with this program and with that of a revision.
func drawn(revision string) ([]change, error) {
	dir, err := os.MkdirTemp("", "seamwright-look-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	tree := filepath.Join(dir, "tree")
	if _, err := git("worktree", "add", "--detach", tree, revision); err != nil {
		return nil, err
	}
	defer git("worktree", "remove", "--force", tree)
	before, err := build(tree, filepath.Join(dir, "before"))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", revision, err)
	}
	now, err := build(".", filepath.Join(dir, "now"))
	if err != nil {
		return nil, err
	}
	names := maps.Clone(before)
	maps.Copy(names, now)
	var all []change
	for name := range names {
		if !bytes.Equal(before[name], now[name]) {
			all = append(all, change{name, before[name], now[name]})
		}
	}
	return all, nil
}

// build builds the examples of this working folder with the program of a module,
// and returns the drawings.
func build(module, out string) (map[string][]byte, error) {
	examples, err := filepath.Abs("examples")
	if err != nil {
		return nil, err
	}
	patterns, err := filepath.Glob(filepath.Join(examples, "*.seam"))
	if err != nil {
		return nil, err
	}
	program := out + ".exe"
	if err := run(module, "go", "build", "-o", program, "./cmd/seamwright"); err != nil {
		return nil, err
	}
	for _, p := range patterns { // one an older program can't read is shown as new
		err := run(module, program, "build", p, "--only", "sheets,diagrams", "--format", "svg", "--out", filepath.Join(out, strings.TrimSuffix(filepath.Base(p), ".seam")))
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
		}
	}
	all := map[string][]byte{}
	err = filepath.WalkDir(out, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".svg" {
			return err
		}
		name, err := filepath.Rel(out, path)
		if err != nil {
			return err
		}
		all[filepath.ToSlash(name)], err = os.ReadFile(path)
		return err
	})
	return all, err
}

func run(dir string, name string, args ...string) error {
	c := exec.Command(name, args...)
	c.Dir = dir
	if out, err := c.CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w\n%s", strings.Join(c.Args, " "), err, out)
	}
	return nil
}
