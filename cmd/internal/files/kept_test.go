package files

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A keeping is a Kept and the folder that it writes.
type keeping struct {
	*testing.T
	Kept
	dir string
}

func newKeeping(t *testing.T) *keeping {
	k := &keeping{T: t, dir: filepath.Join(t.TempDir(), "boat-out")}
	t.Cleanup(k.Close)
	return k
}

// writes writes files whose names and contents take turns.
func (k *keeping) writes(whole bool, texts ...string) Written {
	k.Helper()
	all := outputs(texts...)
	done, fault := k.Write(k.dir, all, whole, never)
	if fault != nil {
		k.Fatal(fault.Message)
	}
	for _, o := range all {
		k.holds(o.Path, string(o.Data))
		if got := k.Data(o.Path); string(got) != string(o.Data) {
			k.Errorf("%s is kept as %q", o.Path, got)
		}
	}
	k.tidy()
	return done
}

func (k *keeping) holds(path, want string) {
	k.Helper()
	if got, err := os.ReadFile(filepath.Join(k.dir, path)); err != nil || string(got) != want {
		k.Errorf("%s holds %q, %v", path, got, err)
	}
}

// tidy finds what was left behind, and a listing that is older than what it lists.
func (k *keeping) tidy() {
	k.Helper()
	listing, err := os.Stat(filepath.Join(k.dir, Listing))
	if err != nil {
		k.Fatal(err)
	}
	filepath.Walk(k.dir, func(path string, info os.FileInfo, err error) error {
		if strings.HasPrefix(filepath.Base(path), stagePrefix) {
			k.Errorf("%s was left", path)
		}
		if err == nil && info.Mode().IsRegular() && info.ModTime().After(listing.ModTime()) {
			k.Errorf("%s is newer than the listing", path)
		}
		return nil
	})
}

func TestKeptWritesWhatChanged(t *testing.T) {
	k := newKeeping(t)
	if got := k.writes(false, "a/x", "1", "a/b/y", "2", "z", "3"); got != (Written{New: 3}) {
		t.Errorf("%+v", got)
	}
	was, _ := os.Stat(filepath.Join(k.dir, "z"))
	for n := range 3 {
		text := strings.Repeat("4", n+1)
		if got := k.writes(false, "a/x", text, "a/b/y", text+"!", "z", "3"); got != (Written{Changed: 2, Same: 1}) {
			t.Errorf("%+v", got)
		}
	}
	if now, _ := os.Stat(filepath.Join(k.dir, "z")); !os.SameFile(was, now) || !now.ModTime().Equal(was.ModTime()) {
		t.Error("a file was written that did not change")
	}
	if got := k.writes(true, "a/x", "5", "p", "new"); got != (Written{New: 1, Changed: 1, Removed: 2}) {
		t.Errorf("%+v", got)
	}
	if got := k.writes(false, "a/x", "6"); got != (Written{Changed: 1}) {
		t.Errorf("%+v", got)
	}
	if got := k.writes(true, "a/x", "6", "p", "newer"); got != (Written{Changed: 1, Same: 1}) {
		t.Errorf("%+v", got)
	}
}

// Whatever somebody else does in the folder, afterwards it holds the outputs.
func TestKeptNoticesOthers(t *testing.T) {
	for name, meddle := range map[string]func(dir string) error{
		"a file is changed": func(dir string) error { return os.WriteFile(filepath.Join(dir, "a/x"), []byte("mine"), 0o666) },
		"a file is changed to one of the same length": func(dir string) error {
			time.Sleep(20 * time.Millisecond) // the clock of some systems is coarse
			return os.WriteFile(filepath.Join(dir, "a/x"), []byte("9"), 0o666)
		},
		"a file is removed":           func(dir string) error { return os.Remove(filepath.Join(dir, "a/x")) },
		"the listing is removed":      func(dir string) error { return os.Remove(filepath.Join(dir, Listing)) },
		"a folder is removed":         func(dir string) error { return os.RemoveAll(filepath.Join(dir, "a")) },
		"everything is removed":       os.RemoveAll,
		"a folder is moved":           func(dir string) error { return os.Rename(filepath.Join(dir, "a"), filepath.Join(dir, "b")) },
		"the whole folder is moved":   func(dir string) error { return os.Rename(dir, dir+"-old") },
		"another build is at work":    func(dir string) error { return os.WriteFile(filepath.Join(dir, "a", stagePrefix+"0"), nil, 0o666) },
		"a file is replaced by alike": func(dir string) error { return replaceFile(filepath.Join(dir, "a/x")) },
	} {
		t.Run(name, func(t *testing.T) {
			k := newKeeping(t)
			k.writes(false, "a/x", "1", "z", "1")
			if err := meddle(k.dir); err != nil {
				t.Fatal(err)
			}
			_, fault := k.Write(k.dir, outputs("a/x", "2", "z", "1"), false, never)
			if fault != nil && name != "the listing is removed" { // then nothing tells that the files are ours
				t.Fatal(fault.Message)
			}
			if fault == nil {
				k.holds("a/x", "2")
				k.holds("z", "1")
			} else {
				k.holds("a/x", "1")
			}
			if name == "the whole folder is moved" {
				if got, err := os.ReadFile(filepath.Join(k.dir+"-old", "a/x")); err != nil || string(got) != "1" {
					t.Errorf("what was moved away was changed: %q, %v", got, err)
				}
			}
		})
	}
}

func replaceFile(name string) error {
	if err := os.WriteFile(name+"~", []byte("9"), 0o666); err != nil {
		return err
	}
	return os.Rename(name+"~", name)
}

// Where one file can't be put into place, none of the others is changed, and what
// was left is removed.
func TestKeptAllOrNothing(t *testing.T) {
	k := newKeeping(t)
	k.writes(false, "a/x", "1", "b/y", "1")
	k.files["b/y"].base = "not/there" // stands for a disk that refuses a renaming
	renewals := make([]*renewal, 2)
	for i, o := range outputs("a/x", "2", "b/y", "2") {
		renewals[i] = &renewal{kept: k.files[o.Path], data: o.Data}
		if err := renewals[i].stage(i); err != nil {
			t.Fatal(err)
		}
	}
	if n, err := k.place(renewals); err == nil || n != 0 {
		t.Errorf("placed %d, %v", n, err)
	}
	k.holds("a/x", "1")
	k.holds("b/y", "1")
	if left, _ := filepath.Glob(filepath.Join(k.dir, "*", stagePrefix+"*")); len(left) > 0 {
		t.Errorf("left: %q", left)
	}
}

// What stops a build leaves everything as it was.
func TestKeptStops(t *testing.T) {
	k := newKeeping(t)
	k.writes(false, "a/x", "1", "z", "1")
	for calls := range 4 {
		n := 0
		_, fault := k.Write(k.dir, outputs("a/x", "2", "z", "2"), false, func() bool { n++; return n > calls })
		if fault == nil {
			continue // it was too late
		}
		k.holds("a/x", "1")
		k.holds("z", "1")
		k.tidy()
	}
}

// What is staged is seen by nobody until it is written, and goes where it is not.
func TestStage(t *testing.T) {
	k := newKeeping(t)
	k.writes(true, "a", "1", "sub/b", "2")
	beside := func() (n int) {
		for _, dir := range []string{k.dir, filepath.Join(k.dir, "sub")} {
			found, err := filepath.Glob(filepath.Join(dir, stagePrefix+"*"))
			if err != nil {
				t.Fatal(err)
			}
			n += len(found)
		}
		return n
	}
	stage := func(want int, texts ...string) []Output {
		t.Helper()
		all := outputs(texts...)
		k.Stage(k.dir, all)
		k.holds("a", "1")
		k.holds("sub/b", "2")
		if got := beside(); got != want {
			t.Errorf("%d files are beside, not %d", got, want)
		}
		return all
	}
	written := func(all []Output, want Written) {
		t.Helper()
		done, fault := k.Write(k.dir, all, false, never)
		if fault != nil || done != want {
			t.Errorf("%+v, %v; not %+v", done, fault, want)
		}
		k.tidy()
	}

	stage(2, "a", "x", "sub/b", "y")
	k.Drop()
	k.tidy()
	stage(1, "a", "x", "sub/b", "2")
	written(outputs("a", "1", "sub/b", "2"), Written{Same: 2}) // others than were staged
	stage(2, "a", "x", "sub/b", "y")
	all := stage(1, "a", "1", "sub/b", "3") // instead of those before
	written(all, Written{Same: 1, Changed: 1})
	k.holds("sub/b", "3")
	written(outputs("a", "1", "sub/b", "2"), Written{Same: 1, Changed: 1})

	all = stage(1, "a", "x", "sub/b", "2")
	if err := os.WriteFile(filepath.Join(k.dir, "sub", "b"), []byte("somebody's"), 0o666); err != nil {
		t.Fatal(err)
	}
	written(all, Written{Changed: 2}) // and what somebody has written is replaced, being ours by name
	k.holds("a", "x")
	k.holds("sub/b", "2")
	k.Stage(k.dir, outputs("a", "1"))
	k.Close()
	k.tidy()
	k.Stage(k.dir, outputs("a", "1")) // of a folder that is let go of nothing is staged
	if beside() != 0 {
		t.Error("a closed folder was written into")
	}
}
