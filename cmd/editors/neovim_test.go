package editors_test

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const boat = `pattern "Pier Light" { edition 1 }

fabric lamp     "lamp"     light  #f2dca0
fabric night    "night"    dark   #22384a

/// A lamp by night.
block pier_light 4 x 4 finished 4in, 6in {
  let deck = 2
  section A {
    1 lamp  at (2, 3)
    2 nihgt along (1.25, deck) -- (1.25, 4)
  }
  section B {
    1 lamp  at (2, 1)
    2 night along (0, 1 / 2) -- (4, 1)
  }
  join (0, deck) -- (4, deck)
}
`

// Neovim's own client, with nobody at the keys: problems, facts, renaming, layout
// and completion arrive in a real editor as they are meant.
func TestNeovim(t *testing.T) {
	nvim, err := exec.LookPath("nvim")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("nvim is missing (Debian: neovim)")
		}
		t.Skip("nvim is missing (Debian: neovim)")
	}
	dir := t.TempDir()
	if out, err := exec.Command("go", "build", "-o", dir, "seamwright/cmd/seamwright").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	file := filepath.Join(dir, "boat.seam")
	if err := os.WriteFile(file, []byte(boat), 0o666); err != nil {
		t.Fatal(err)
	}
	plugin, err := filepath.Abs("neovim/seamwright.lua")
	if err != nil {
		t.Fatal(err)
	}
	script, err := filepath.Abs("testdata/drive.lua")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	c := exec.CommandContext(ctx, nvim, "--clean", "--headless", "-c", "luafile "+script, "-c", "cquit!")
	c.Dir = dir
	c.Env = append(os.Environ(), "PATH="+dir+string(os.PathListSeparator)+os.Getenv("PATH"), "PLUGIN="+plugin, "FILE="+file, "HOME="+dir, "XDG_CACHE_HOME="+dir, "XDG_STATE_HOME="+dir)
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, want := range []string{
		"problem L201 under nihgt", "a number: `2`", "renamed   let keel = 2     2 night along (1.25, keel)",
		"**A2**, night; pier_light at 4 in", "seam: 2 in (5.1 cm) long", "laid out   let keel = 2", "offered true true true",
	} {
		if !strings.Contains(string(out), want) {
			t.Errorf("%q is not in what Neovim shows:\n%s", want, out)
		}
	}
}
