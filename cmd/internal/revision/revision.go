package revision

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// A Tree is everything that a revision holds. It is safe for concurrent use.
type Tree struct {
	Revision string // as it was asked for
	ids      map[string]string
	prefix   string     // the current folder, from the top
	mu       sync.Mutex // one file is asked for at a time
	batch    *exec.Cmd
	in       io.WriteCloser
	out      *bufio.Reader
}

// ErrNoGit says that the program git is missing.
var ErrNoGit = errors.New("the program git is not on this machine; files and folders can be compared without it")

// Open finds a revision of the repository that the current folder is in.
func Open(revision string) (*Tree, error) {
	if _, err := exec.LookPath("git"); err != nil {
		return nil, ErrNoGit
	}
	if revision == "" || revision[0] == '-' {
		return nil, fmt.Errorf("%q is no revision", revision)
	}
	prefix, err := git("rev-parse", "--show-prefix")
	if err != nil {
		return nil, errors.New("this folder is not in a git repository")
	}
	id, err := git("rev-parse", "--verify", "--quiet", revision+"^{tree}")
	if err != nil {
		return nil, fmt.Errorf("git knows no revision %q", revision)
	}
	id = strings.TrimSpace(id)
	list, err := git("ls-tree", "-r", "-z", "--full-tree", id)
	if err != nil {
		return nil, err
	}
	t := &Tree{Revision: revision, ids: map[string]string{}, prefix: strings.TrimSuffix(prefix, "\n")}
	for _, entry := range strings.Split(list, "\x00") {
		head, name, _ := strings.Cut(entry, "\t") // mode, kind, id
		if f := strings.Fields(head); len(f) == 3 && f[1] == "blob" && f[0] != symlink {
			t.ids[name] = f[2]
		}
	}
	return t, nil
}

// symlink is the mode of a link; its blob is the path it leads to.
const symlink = "120000"

func git(args ...string) (string, error) {
	out, err := exec.Command("git", args...).Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) && len(exit.Stderr) > 0 {
			return "", errors.New(strings.TrimSpace(string(exit.Stderr)))
		}
	}
	return string(out), err
}

// Path is where a file that is named from the current folder stands in the tree;
// ok is false where it would be outside.
func (t *Tree) Path(name string) (at string, ok bool) {
	if filepath.IsAbs(name) {
		return "", false
	}
	at = path.Join(t.prefix, filepath.ToSlash(name))
	return at, at != ".." && !strings.HasPrefix(at, "../")
}

// Has reports whether there is a file of this path.
func (t *Tree) Has(at string) bool { return t.ids[at] != "" }

// Below lists the files in and below a folder whose names end so, in order; the
// folder "" or "." is the whole tree.
func (t *Tree) Below(folder, ending string) []string {
	var all []string
	for name := range t.ids {
		if strings.HasSuffix(name, ending) && (folder == "" || folder == "." || strings.HasPrefix(name, folder+"/")) {
			all = append(all, name)
		}
	}
	slices.Sort(all)
	return all
}

// Read returns a file's bytes, at most so many.
func (t *Tree) Read(at string, most int64) ([]byte, error) {
	id := t.ids[at]
	if id == "" {
		return nil, fmt.Errorf("there is no file %s in %s", at, t.Revision)
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	if err := t.ask(); err != nil {
		return nil, err
	}
	if _, err := io.WriteString(t.in, id+"\n"); err != nil {
		return nil, err
	}
	head, err := t.out.ReadString('\n') // ID blob SIZE
	if err != nil {
		return nil, err
	}
	f := strings.Fields(head)
	if len(f) != 3 {
		return nil, fmt.Errorf("git can't read %s: %s", at, strings.TrimSpace(head))
	}
	size, err := strconv.ParseInt(f[2], 10, 64)
	if err != nil {
		return nil, err
	}
	if size > most {
		t.end() // rather than read it
		return nil, fmt.Errorf("%s is larger than %d MB, the most that is read", at, most>>20)
	}
	data := make([]byte, size+1) // a line break follows
	if _, err := io.ReadFull(t.out, data); err != nil {
		return nil, err
	}
	return data[:size], nil
}

// ask starts the one git that all files are asked of.
func (t *Tree) ask() error {
	if t.batch != nil {
		return nil
	}
	c := exec.Command("git", "cat-file", "--batch")
	in, err := c.StdinPipe()
	if err != nil {
		return err
	}
	out, err := c.StdoutPipe()
	if err != nil {
		return err
	}
	if err := c.Start(); err != nil {
		return err
	}
	t.batch, t.in, t.out = c, in, bufio.NewReader(out)
	return nil
}

// Close ends git.
func (t *Tree) Close() {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.end()
}

func (t *Tree) end() {
	if t.batch != nil {
		t.in.Close()
		t.batch.Process.Kill()
		t.batch.Wait()
		t.batch = nil
	}
}
