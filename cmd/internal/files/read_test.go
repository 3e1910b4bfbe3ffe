package files

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"seamwright/lang/problem"
)

func put(t *testing.T, name, text string) string {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestReadRefuses(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	put(t, at("boat.seam"), "block")
	huge := put(t, at("huge.seam"), "")
	if err := os.Truncate(huge, 100<<20); err != nil {
		t.Fatal(err)
	}
	pipe := at("pipe.seam")
	if err := syscall.Mkfifo(pipe, 0o666); err != nil {
		t.Skip(err)
	}
	for _, c := range []struct {
		name, message, help string
		code                problem.Code
	}{
		{at("bota.seam"), "no such file", "boat.seam", Unreadable},
		{dir, "folder", "", NotAFile},
		{pipe, "pipe", "-", NotAFile},
		{"/dev/zero", "device", "", NotAFile},
		{huge, "larger than 1 MB", "", TooLarge},
		{put(t, at("empty.seam"), ""), "nothing in this file", "seamwright new", Empty},
		{put(t, at("blank.seam"), "\uFEFF \r\n\t"), "nothing in this file", "", Empty},
		{put(t, at("a.seam"), "%PDF-1.7"), "a PDF", "plain text", NotText},
		{put(t, at("b.seam"), "PK\x03\x04"), "word processor", "", NotText},
		{put(t, at("c.seam"), "\xff\xfeb\x00"), "UTF-16", "", NotText},
		{put(t, at("d.seam"), "block \x00"), "binary", "", NotText},
	} {
		begun := time.Now()
		src, p := Read(c.name, nil)
		if src != nil || p == nil {
			t.Errorf("%s was read", c.name)
			continue
		}
		if p.Code != c.code || !strings.Contains(p.Message, c.message) || !strings.Contains(p.Help, c.help) || p.At.Source.Name != c.name {
			t.Errorf("%s: %s %s (%s)", c.name, p.Code, p.Message, p.Help)
		}
		if time.Since(begun) > time.Second {
			t.Errorf("%s took %v", c.name, time.Since(begun))
		}
	}
}

// endless is a stream without an end.
type endless struct{}

func (endless) Read(p []byte) (int, error) { return copy(p, strings.Repeat(" ", len(p))), nil }

func TestReadStdin(t *testing.T) {
	src, p := Read(Stdin, strings.NewReader("block"))
	if p != nil || src.Text != "block" || src.Name != "-" {
		t.Errorf("%+v %+v", src, p)
	}
	if _, p := Read(Stdin, endless{}); p == nil || p.Code != TooLarge {
		t.Errorf("an endless stream: %+v", p)
	}
}

func TestFind(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"b.seam", "a/z.seam", "a/y.txt", ".git/x.seam", "b-out/w.seam"} {
		put(t, filepath.Join(dir, name), "x")
	}
	got, ps := Find([]string{"-", dir, filepath.Join(dir, "b.seam")})
	want := []string{"-", filepath.Join(dir, "a", "z.seam"), filepath.Join(dir, "b.seam"), filepath.Join(dir, "b.seam")}
	if len(ps) != 0 || strings.Join(got, " ") != strings.Join(want, " ") {
		t.Errorf("%v %v", got, ps)
	}
	if _, ps := Find([]string{filepath.Join(dir, ".git", "none"), t.TempDir()}); len(ps) != 1 || ps[0].Code != NotAFile {
		t.Errorf("an empty folder: %v", ps)
	}
}

// loader knows one shipped family, ray.
func loader(t *testing.T) *Loader {
	l := &Loader{
		Family:   func(name string) (string, bool) { return "unit ray", name == "ray" },
		Families: func() []string { return []string{"ray"} },
	}
	t.Cleanup(l.Close)
	return l
}

func TestLoad(t *testing.T) {
	top := t.TempDir()
	at := func(name string) string { return filepath.Join(top, name) }
	put(t, at("project/seamwright.root"), "")
	put(t, at("project/families/wave.seam"), "unit wave")
	put(t, at("project/families/vast.seam"), strings.Repeat(" ", MaxSize+1))
	put(t, at("project/families/empty.seam"), "")
	put(t, at("outside.seam"), "unit outside")
	put(t, at("project/boats/sail.png"), "a sail")
	put(t, at("project/boats/none.png"), "")
	put(t, at("project/boats/vast.png"), strings.Repeat(" ", MaxPicture+1))
	boat := &problem.Source{Name: put(t, at("project/boats/boat.seam"), "x")}
	alone := &problem.Source{Name: put(t, at("alone/boat.seam"), "x")}
	links := true
	for name, to := range map[string]string{"up": "../..", "abs.seam": at("outside.seam"), "in.seam": "../families/wave.seam"} {
		links = links && os.Symlink(to, at("project/boats/"+name)) == nil
	}
	syscall.Mkfifo(at("project/boats/pipe.seam"), 0o666)

	l := loader(t)
	family := &problem.Source{Name: "std/ray"}
	for _, c := range []struct {
		from *problem.Source
		path string
		want string // the text, or a part of the message
	}{
		{boat, "../families/wave", "unit wave"},
		{boat, "std/ray", "unit ray"},
		{family, "std/ray", "unit ray"},
		{family, "wave", "only shipped families"},
		{boat, "std/rai", `did you mean "std/ray"`},
		{boat, "std/../../outside", "no family"},
		{boat, "../families/wawe", `did you mean "wave"`},
		{boat, "ray", `the shipped family is "std/ray"`},
		{boat, "../families", "no file"},
		{boat, "../families/vast", "larger than 1 MB"},
		{boat, "../families/empty", "nothing in this file"},
		{boat, "../../outside", "out of the project"},
		{boat, "pipe", "is not a file"},
		{boat, "wave.seam", "without .seam"},
		{boat, `..\families\wave`, "../families/wave"},
		{boat, "/etc/wave", "not at the top of the disk"},
		{boat, `C:/wave`, "not at the top of the disk"},
		{boat, "", "empty"},
		{boat, "a\x00b", "control character"},
		{boat, "up/outside", "symbolic link"},
		{boat, "abs", "symbolic link"},
		{boat, "in", "unit wave"},
	} {
		if strings.HasPrefix(c.want, "symbolic") && !links {
			continue
		}
		src, message := l.Load(c.from, c.path)
		got := message
		if src != nil {
			got = src.Text
		}
		if (src == nil) == (message == "") || !strings.Contains(got, c.want) {
			t.Errorf("%q from %s: got %q, want %q", c.path, c.from.Name, got, c.want)
		}
	}
	for name, want := range map[string]string{
		"sail.png": "a sail", "../families/wave.seam": "unit wave", // what it is, is not asked here
		"sial.png": "did you mean sail.png?", "mast.png": "there is no file", "../../outside.seam": "out of the project", "abs.seam": "symbolic link",
		"up/outside.seam": "symbolic link", "": "empty", `a\b.png`: "a/b.png", "/etc/passwd": "not at the top", "none.png": "there is nothing in", "vast.png": "larger than 10 MB",
		"pipe.seam": "is not a file", "..": "is not a file",
	} {
		if strings.HasPrefix(want, "symbolic") && !links {
			continue
		}
		data, why := l.Picture(boat, name)
		if got := data + why; (data == "") == (why == "") || !strings.Contains(got, want) {
			t.Errorf("the picture %q: got %q, want %q", name, got, want)
		}
	}
	if all := l.Pictures(); len(all) != 2 || all[0].Name != at("project/boats/sail.png") {
		t.Errorf("%d pictures", len(all))
	}
	a, _ := l.Load(boat, "../families/wave")
	b, _ := l.Load(boat, "../boats/../families/wave")
	if a != b {
		t.Error("one file is two sources")
	}

	// without a marker the pattern's own folder is the project
	if src, message := loader(t).Load(alone, "../outside"); src != nil || !strings.Contains(message, "seamwright.root") {
		t.Errorf("read outside: %q", message)
	}
	// standard input stands in the working folder
	t.Chdir(at("alone"))
	if src, message := loader(t).Load(&problem.Source{Name: Stdin}, "boat"); src == nil {
		t.Error(message)
	}
}
