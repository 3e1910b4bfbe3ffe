package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write the golden files anew")

// The stories run the real program, in a process of its own, and so does the
// program that breaks, which exists only here.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"seamwright": main,
		"seamwright-that-breaks": func() {
			breaks := verb{name: "break", run: func(*call) int { var none []int; return none[len(os.Args)] }}
			os.Exit(run(env{os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv}, []verb{breaks}))
		},
	})
}

// TestStories plays testdata/stories: one file a verb or a kind of bad input.
// `exits N COMMAND...` demands an exit code; the rest is testscript's own.
func TestStories(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("testdata", "stories"),
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			root, err := filepath.Abs(filepath.Join("..", ".."))
			e.Setenv("ROOT", root)
			e.Setenv("NO_COLOR", "1")
			e.Setenv("XDG_CACHE_HOME", filepath.Join(e.WorkDir, ".cache"))
			return err
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"edit":  edit,
			"cache": cache,
			"exits": exits,
			"disk":  disk,
			"waits": waits,
		},
		Condition: func(cond string) (bool, error) {
			if cond == "disks" { // a container's root may not mount, either
				return exec.Command("unshare", "-m", "mount", "-t", "tmpfs", "tmpfs", "/mnt").Run() == nil, nil
			}
			return false, fmt.Errorf("no condition %q", cond)
		},
	})
}

// exits runs a command and demands its exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	code := 0
	if exit, ok := err.(*exec.ExitError); ok {
		code = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if code != want {
		ts.Fatalf("exit code %d, not %d", code, want)
	}
}

// disk SIZE DIR mounts a small disk of so many KB, disk readonly DIR makes it
// read-only. Only root may; a story asks first, with [!disks] skip.
func disk(ts *testscript.TestScript, neg bool, args []string) {
	dir := ts.MkAbs(args[1])
	if args[0] == "readonly" {
		ts.Check(exec.Command("mount", "-o", "remount,ro", dir).Run())
		return
	}
	ts.Check(os.MkdirAll(dir, 0o777))
	out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size="+args[0]+"k", "tmpfs", dir).CombinedOutput()
	if err != nil {
		ts.Fatalf("mount: %v %s", err, out)
	}
	ts.Defer(func() { exec.Command("umount", dir).Run() })
}

// edit FILE OLD NEW replaces a text in a file, which must hold it once. \n in
// NEW is a line break.
func edit(ts *testscript.TestScript, neg bool, args []string) {
	text := ts.ReadFile(args[0])
	if strings.Count(text, args[1]) != 1 {
		ts.Fatalf("%s holds %q %d times", args[0], args[1], strings.Count(text, args[1]))
	}
	text = strings.Replace(text, args[1], strings.ReplaceAll(args[2], `\n`, "\n"), 1)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o666))
}

// cache OLD NEW replaces a text in all that the program has cached, which must hold
// it.
func cache(ts *testscript.TestScript, neg bool, args []string) {
	found := false
	all, err := filepath.Glob(filepath.Join(ts.Getenv("XDG_CACHE_HOME"), "seamwright", "*"))
	ts.Check(err)
	for _, name := range all {
		text := ts.ReadFile(name)
		found = found || strings.Contains(text, args[0])
		ts.Check(os.WriteFile(name, []byte(strings.ReplaceAll(text, args[0], args[1])), 0o666))
	}
	if !found {
		ts.Fatalf("nothing cached holds %q", args[0])
	}
}

// waits FILE TEXT waits until a file holds a text.
func waits(ts *testscript.TestScript, neg bool, args []string) {
	for late := time.Now().Add(10 * time.Second); ; time.Sleep(5 * time.Millisecond) {
		if data, err := os.ReadFile(ts.MkAbs(args[0])); err == nil && strings.Contains(string(data), args[1]) {
			return
		}
		if time.Now().After(late) {
			ts.Fatalf("%s does not come to hold %q", args[0], args[1])
		}
	}
}
