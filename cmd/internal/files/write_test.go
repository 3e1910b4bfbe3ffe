package files

import (
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// workers write at once in these tests.
const workers = 2

func never() bool { return false }

// tree reads a folder: path to content, ours included.
func tree(t *testing.T, folder string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := filepath.WalkDir(folder, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		rel, _ := filepath.Rel(folder, path)
		got[filepath.ToSlash(rel)] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func outputs(pairs ...string) []Output {
	var out []Output
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, Output{Path: pairs[i], Data: []byte(pairs[i+1])})
	}
	return out
}

func mustWrite(t *testing.T, folder string, whole bool, pairs ...string) Written {
	t.Helper()
	w, p := Write(folder, outputs(pairs...), whole, workers, never, Record{})
	if p != nil {
		t.Fatalf("%s: %s", p.At.Source.Name, p.Message)
	}
	return w
}

func want(t *testing.T, folder string, pairs ...string) {
	t.Helper()
	got := tree(t, folder)
	delete(got, Listing)
	want := map[string]string{}
	for i := 0; i < len(pairs); i += 2 {
		want[pairs[i]] = pairs[i+1]
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("the folder (-want +got):\n%s", d)
	}
}

func TestWriteReplacesOnlyItsOwn(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "deep", "boat-out")
	if got := mustWrite(t, folder, true, "a.svg", "1", "t/b.csv", "2", "t/c.csv", "3"); got != (Written{New: 3}) {
		t.Errorf("first: %+v", got)
	}
	if err := os.WriteFile(filepath.Join(folder, "t", "mine.txt"), []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	before, _ := os.Stat(filepath.Join(folder, "a.svg"))
	if got := mustWrite(t, folder, true, "a.svg", "1", "t/b.csv", "changed", "d/e", "new"); got != (Written{New: 1, Changed: 1, Same: 1, Removed: 1}) {
		t.Errorf("second: %+v", got)
	}
	after, _ := os.Stat(filepath.Join(folder, "a.svg"))
	if !os.SameFile(before, after) || before.ModTime() != after.ModTime() {
		t.Error("a file that did not change was written")
	}
	want(t, folder, "a.svg", "1", "t/b.csv", "changed", "d/e", "new", "t/mine.txt", "mine")

	// a part of the outputs removes nothing, and is remembered with the rest
	mustWrite(t, folder, false, "part", "x")
	want(t, folder, "a.svg", "1", "t/b.csv", "changed", "d/e", "new", "t/mine.txt", "mine", "part", "x")
	mustWrite(t, folder, true, "a.svg", "1")
	want(t, folder, "a.svg", "1", "t/mine.txt", "mine")
	if _, err := os.Stat(filepath.Join(folder, "d")); !os.IsNotExist(err) {
		t.Error("an empty folder was left")
	}
}

func TestWriteRefusesForeignFiles(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "pattern.json")
	if err := os.WriteFile(file, []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	_, p := Write(folder, outputs("a.svg", "1", "pattern.json", "2"), true, workers, never, Record{})
	if p == nil || p.Code != Unwritable || !strings.Contains(p.Message, "not written by seamwright") {
		t.Fatalf("got %+v", p)
	}
	want(t, folder, "pattern.json", "mine")

	// a symbolic link is not ours either, wherever it leads
	outside := filepath.Join(t.TempDir(), "precious")
	os.WriteFile(outside, []byte("precious"), 0o666)
	os.Remove(file)
	if err := os.Symlink(outside, file); err != nil {
		t.Skip(err)
	}
	if _, p := Write(folder, outputs("pattern.json", "2"), true, workers, never, Record{}); p == nil {
		t.Error("a symbolic link was replaced")
	}
	if data, _ := os.ReadFile(outside); string(data) != "precious" {
		t.Error("a file outside was written")
	}
}

// A list that somebody has tampered with removes nothing outside the folder.
func TestWriteDoesNotTrustItsList(t *testing.T) {
	parent := t.TempDir()
	folder := filepath.Join(parent, "out")
	mustWrite(t, folder, true, "a", "1")
	os.WriteFile(filepath.Join(parent, "victim"), []byte("v"), 0o666)
	os.WriteFile(filepath.Join(folder, Listing), []byte("../victim\n/etc/hosts\nsub\na\n"), 0o666)
	os.Mkdir(filepath.Join(folder, "sub"), 0o777)
	if err := os.Symlink("..", filepath.Join(folder, "up")); err == nil {
		f, _ := os.OpenFile(filepath.Join(folder, Listing), os.O_APPEND|os.O_WRONLY, 0)
		f.WriteString("up/victim\n")
		f.Close()
	}
	mustWrite(t, folder, true, "b", "2")
	if _, err := os.Stat(filepath.Join(parent, "victim")); err != nil {
		t.Error("a file outside was removed")
	}
	if _, err := os.Stat(filepath.Join(folder, "sub")); err != nil {
		t.Error("a folder was removed")
	}
}

func TestWriteUndoes(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "out")
	mustWrite(t, folder, true, "a", "1", "b", "2", "z/c", "3")
	// "z" is a file now: a folder is in the way of the last renaming
	_, p := Write(folder, outputs("a", "changed", "new", "n", "z", "file"), true, workers, never, Record{})
	if p == nil {
		t.Fatal("no problem")
	}
	want(t, folder, "a", "1", "b", "2", "z/c", "3")

	folder = filepath.Join(t.TempDir(), "fresh")
	_, p = Write(folder, outputs("a", "1", "a/b", "2"), true, workers, never, Record{})
	if p == nil {
		t.Fatal("no problem")
	}
	if _, err := os.Stat(folder); !os.IsNotExist(err) {
		t.Errorf("the folder was left: %v", tree(t, folder))
	}
	for _, bad := range []string{"../x", "/x", "", "a//b", "a/../../x"} {
		if _, p := Write(folder, outputs(bad, "1"), true, workers, never, Record{}); p == nil {
			t.Errorf("%q was written", bad)
		}
	}
}

func TestWriteStops(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "out")
	mustWrite(t, folder, true, "a", "1")
	for _, after := range []int{0, 1, 2} {
		n := 0
		stop := func() bool { n++; return n > after }
		_, p := Write(folder, outputs("a", "2", "b", "2"), true, workers, stop, Record{})
		if p == nil || !strings.Contains(p.Message, "stopped") {
			t.Fatalf("after %d files: %+v", after, p)
		}
		want(t, folder, "a", "1")
	}
}

// What a killed build left is swept away later; a build at work is not disturbed.
func TestWriteSweeps(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "out")
	mustWrite(t, folder, true, "a", "1")
	left := filepath.Join(folder, stagePrefix+"0")
	os.MkdirAll(filepath.Join(left, "deep"), 0o777)
	mustWrite(t, folder, true, "a", "2")
	if _, err := os.Stat(left); err != nil {
		t.Error("the folder of a build at work was removed")
	}
	old := time.Now().Add(-2 * time.Hour)
	os.Chtimes(left, old, old)
	mustWrite(t, folder, true, "a", "3")
	if _, err := os.Stat(left); err == nil {
		t.Error("what a killed build left stays for ever")
	}
}

// tmpfs mounts a disk of a few pages, if the tests run as root on Linux.
func tmpfs(t *testing.T, options string) string {
	t.Helper()
	dir := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", options, "tmpfs", dir).CombinedOutput(); err != nil {
		t.Skipf("no small disk to be had: %v %s", err, out)
	}
	t.Cleanup(func() { exec.Command("umount", dir).Run() })
	return dir
}

func TestWriteFullDisk(t *testing.T) {
	disk := tmpfs(t, "size=64k")
	folder := filepath.Join(disk, "out")
	mustWrite(t, folder, true, "a", "1", "b", strings.Repeat("x", 5000))
	before := tree(t, disk)
	_, p := Write(folder, outputs("a", "2", "c", strings.Repeat("y", 40_000), "d", strings.Repeat("y", 40_000)), true, workers, never, Record{})
	if p == nil || p.Code != Unwritable || !strings.Contains(p.Message, "the disk is full") {
		t.Fatalf("got %+v", p)
	}
	if d := cmp.Diff(before, tree(t, disk)); d != "" {
		t.Errorf("a full disk changed something:\n%s", d)
	}
	if _, p = Write(filepath.Join(disk, "other"), outputs("d", strings.Repeat("y", 90_000)), true, workers, never, Record{}); p == nil {
		t.Fatal("no problem")
	}
	if d := cmp.Diff(before, tree(t, disk)); d != "" {
		t.Errorf("a full disk changed something:\n%s", d)
	}
}

func TestWriteReadOnlyDisk(t *testing.T) {
	disk := tmpfs(t, "size=1m")
	folder := filepath.Join(disk, "out")
	mustWrite(t, folder, true, "a", "1")
	if out, err := exec.Command("mount", "-o", "remount,ro", disk).CombinedOutput(); err != nil {
		t.Skipf("%v %s", err, out)
	}
	_, p := Write(folder, outputs("a", "2"), true, workers, never, Record{})
	if p == nil || !strings.Contains(p.Message, "can only be read") {
		t.Fatalf("got %+v", p)
	}
	want(t, folder, "a", "1")
	if got := mustWrite(t, folder, true, "a", "1"); got.Same != 1 {
		t.Errorf("what needs no writing failed: %+v", got)
	}
}

func TestReplace(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "boat.seam")
	os.WriteFile(file, []byte("old"), 0o640)
	os.Chmod(file, 0o640)
	link := filepath.Join(dir, "link.seam")
	if err := os.Symlink("boat.seam", link); err != nil {
		t.Skip(err)
	}
	if p := Replace(link, []byte("new")); p != nil {
		t.Fatal(p.Message)
	}
	info, _ := os.Stat(file)
	if data, _ := os.ReadFile(file); string(data) != "new" || info.Mode().Perm() != 0o640 {
		t.Errorf("%q %v", data, info.Mode())
	}
	if info, _ := os.Lstat(link); info.Mode()&os.ModeSymlink == 0 {
		t.Error("the link was replaced")
	}
	if p := Create(file, []byte("x")); p == nil || p.Code != Unwritable {
		t.Errorf("a file was replaced: %+v", p)
	}
	if got := names(t, dir); cmp.Diff([]string{"boat.seam", "link.seam"}, got) != "" {
		t.Errorf("left over: %v", got)
	}
}

func names(t *testing.T, dir string) []string {
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	sort.Strings(names)
	return names
}

// What breaks while an output is made is met by the caller, and nothing is left.
func TestABrokenOutputLeavesNothing(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "out")
	for _, there := range []bool{false, true} {
		if there {
			mustWrite(t, folder, true, "a", "1")
		}
		broken := outputs("a", "2", "b", "3", "c", "4")
		broken[1].Give = func(func([]byte) error) error { panic("a needle") }
		func() {
			defer func() {
				if told, _ := recover().(string); !strings.Contains(told, "a needle") {
					t.Errorf("met %q", told)
				}
			}()
			Write(folder, broken, true, workers, never, Record{})
		}()
		var left []string
		filepath.WalkDir(filepath.Dir(folder), func(path string, d os.DirEntry, _ error) error {
			if !d.IsDir() || strings.HasPrefix(d.Name(), stagePrefix) {
				left = append(left, d.Name())
			}
			return nil
		})
		if want := map[bool]int{true: 2}[there]; len(left) != want {
			t.Errorf("left are %v", left)
		}
	}
	if data, _ := os.ReadFile(filepath.Join(folder, "a")); string(data) != "1" {
		t.Errorf("a is %q", data)
	}
}
