package files

import (
	"bytes"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"

	"seamwright/lang/problem"
)

// A Kept is a folder of results that one process writes again and again. It
// remembers what it wrote, so that files are compared in memory, and it keeps the
// folders open. Where anybody else has changed, moved or removed what is ours in
// the folder, all is looked at as [Write] does. The zero Kept is ready; it is not
// for concurrent use.
type Kept struct {
	folder string
	leaves map[string]*leaf // by path; nil where nothing is remembered
	files  map[string]*kept // by path
	staged *staged          // what was written beside ahead of time; nil: nothing
}

// A staged is a set of outputs of which those that hold something else now are
// written beside the files that they will replace.
type staged struct {
	outputs  []Output
	renewals []*renewal // by output; nil where it is as before
}

// A leaf is an open folder, and what it was when it was opened.
type leaf struct {
	root *os.Root
	info os.FileInfo
}

// A kept is a file as it was written.
type kept struct {
	data []byte
	info os.FileInfo
	leaf *leaf
	base string // its name in the leaf
}

// Data returns the bytes of a file as they were last written. They are not to be
// changed.
func (k *Kept) Data(path string) []byte {
	if f := k.files[path]; f != nil {
		return f.data
	}
	return nil
}

// Close lets go of the folder, and of what was written beside.
func (k *Kept) Close() {
	k.Drop()
	for _, l := range k.leaves {
		l.root.Close()
	}
	k.leaves, k.files = nil, nil
}

// Write makes a folder hold a set of outputs just as [Write] does, without a
// record. An output may be given twice, one after the other.
func (k *Kept) Write(folder string, outputs []Output, whole bool, stop func() bool) (Written, *problem.Problem) {
	if folder == k.folder && k.untouched(outputs, whole) {
		if done, ok := k.again(outputs, stop); ok {
			return done, nil
		}
	}
	k.Close()
	data := make([][]byte, len(outputs))
	all := make([]Output, len(outputs))
	for i := range outputs {
		all[i] = Output{Path: outputs[i].Path, Give: func(put func([]byte) error) error {
			return outputs[i].give(func(bytes []byte) error {
				data[i] = slices.Clone(bytes)
				return put(bytes)
			})
		}}
	}
	done, fault := Write(folder, all, whole, runtime.GOMAXPROCS(0), stop, Record{})
	if fault == nil {
		k.folder = folder
		if err := k.learn(outputs, data); err != nil {
			k.Close() // somebody is at work in the folder: next time all is looked at
		}
	}
	return done, fault
}

// learn remembers a folder as it was just written.
func (k *Kept) learn(outputs []Output, data [][]byte) error {
	k.leaves, k.files = map[string]*leaf{}, map[string]*kept{}
	list, err := os.ReadFile(filepath.Join(k.folder, Listing))
	if err != nil {
		return err
	}
	if err := k.remember(Listing, list); err != nil {
		return err
	}
	for i := range outputs {
		if err := k.remember(outputs[i].Path, data[i]); err != nil {
			return err
		}
	}
	return nil
}

func (k *Kept) remember(name string, data []byte) error {
	l, err := k.leaf(path.Dir(name))
	if err != nil {
		return err
	}
	info, err := l.root.Lstat(path.Base(name))
	if err != nil {
		return err
	}
	k.files[name] = &kept{data, info, l, path.Base(name)}
	return nil
}

// leaf opens a folder in the results, if it is not open yet. What a process left
// there that was killed an hour ago or earlier is removed.
func (k *Kept) leaf(dir string) (*leaf, error) {
	if l, ok := k.leaves[dir]; ok {
		return l, nil
	}
	top, err := os.OpenRoot(k.folder)
	if err != nil {
		return nil, err
	}
	defer top.Close()
	root, err := top.OpenRoot(filepath.FromSlash(dir))
	if err != nil {
		return nil, err
	}
	l := &leaf{root: root}
	k.leaves[dir] = l
	if l.info, err = root.Stat("."); err != nil {
		return nil, err
	}
	entries, err := os.ReadDir(filepath.Join(k.folder, filepath.FromSlash(dir)))
	for _, e := range entries {
		if info, err := e.Info(); err == nil && strings.HasPrefix(e.Name(), stagePrefix) && info.Mode().IsRegular() && time.Since(info.ModTime()) > abandoned {
			root.Remove(e.Name())
		}
	}
	return l, err
}

// untouched reports whether outputs are files that are remembered, all of them
// if they are the whole, and nobody else has had his hands on them.
func (k *Kept) untouched(outputs []Output, whole bool) bool {
	if k.files[Listing] == nil || whole && len(outputs)+1 != len(k.files) {
		return false
	}
	for dir, l := range k.leaves {
		info, err := os.Lstat(filepath.Join(k.folder, filepath.FromSlash(dir)))
		if dir == "." { // the folder may have been given as a link
			info, err = os.Stat(k.folder)
		}
		if err != nil || !os.SameFile(info, l.info) {
			return false
		}
	}
	seen := make(map[*kept]bool, len(outputs))
	for i := range outputs {
		f := k.files[outputs[i].Path]
		if f == nil || seen[f] || !f.asWritten() {
			return false
		}
		seen[f] = true
	}
	return k.files[Listing].asWritten()
}

func (f *kept) asWritten() bool {
	info, err := f.leaf.root.Lstat(f.base)
	return err == nil && os.SameFile(info, f.info) && info.Size() == f.info.Size() && info.ModTime().Equal(f.info.ModTime())
}

// A renewal is a file that holds something else now.
type renewal struct {
	*kept
	data []byte
	info os.FileInfo
}

// Stage writes beside, ahead of time, what a call of [Kept.Write] with the same outputs
// will put into place; nothing else is seen to change until then. What was staged
// before is removed. Where it can't be done Write does all of it.
func (k *Kept) Stage(folder string, outputs []Output) {
	k.Drop()
	if folder != k.folder || !k.untouched(outputs, false) {
		return
	}
	if renewals, err := k.stage(outputs, func() bool { return false }); err == nil {
		k.staged = &staged{outputs, renewals}
	}
}

// Drop removes what was staged.
func (k *Kept) Drop() {
	if k.staged != nil {
		remove(k.staged.renewals)
		k.staged = nil
	}
}

// taken returns what was staged of outputs, and whether it was; what was staged of
// others is removed.
func (k *Kept) taken(outputs []Output) ([]*renewal, bool) {
	s := k.staged
	if s == nil || len(outputs) == 0 || len(s.outputs) != len(outputs) || &s.outputs[0] != &outputs[0] {
		k.Drop()
		return nil, false
	}
	k.staged = nil
	return s.renewals, true
}

// again writes the files that hold something else now, each beside itself, and
// then renames them all. Where it fails nothing has changed, and [Write] is to
// find out why.
func (k *Kept) again(outputs []Output, stop func() bool) (done Written, ok bool) {
	renewals, ok := k.taken(outputs)
	var err error
	if !ok {
		renewals, err = k.stage(outputs, stop)
	}
	if err == nil && stop() {
		remove(renewals)
		err = ErrStopped
	}
	if err != nil {
		return Written{}, false
	}
	if done.Changed, err = k.place(renewals); err != nil {
		return Written{}, false
	}
	done.Same = len(outputs) - done.Changed
	return done, true
}

// stage writes the files that hold something else now, each beside itself; where it
// fails none. One thread does it: most are a few small files, which are written before
// another one has begun.
func (k *Kept) stage(outputs []Output, stop func() bool) ([]*renewal, error) {
	renewals := make([]*renewal, len(outputs))
	w := &writer{folder: k.folder, workers: 1, stop: stop}
	err := w.each(outputs, func(i int, data []byte, _ *desk) error {
		f := k.files[outputs[i].Path]
		if bytes.Equal(data, f.data) {
			return nil
		}
		renewals[i] = &renewal{kept: f, data: slices.Clone(data)}
		return renewals[i].stage(i)
	})
	if err != nil {
		remove(renewals)
	}
	return renewals, err
}

// place renames all files into place, or none, and returns how many.
func (k *Kept) place(renewals []*renewal) (placed int, err error) {
	for i, r := range renewals {
		if r == nil {
			continue
		}
		if err = r.leaf.root.Rename(beside(i), r.base); err != nil {
			break
		}
		placed++
	}
	if err == nil && placed > 0 {
		err = k.list()
	}
	if err != nil {
		remove(renewals)
		back(renewals, placed)
		return 0, err
	}
	for _, r := range renewals {
		if r != nil {
			r.kept.data, r.kept.info = r.data, r.info
		}
	}
	return placed, nil
}

func beside(i int) string { return stagePrefix + strconv.Itoa(i) }

// stage writes a file beside the one that it will replace.
func (r *renewal) stage(i int) error {
	f, err := r.leaf.root.OpenFile(beside(i), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(r.data)
	if err == nil {
		r.info, err = f.Stat()
	}
	if later := f.Close(); err == nil {
		err = later
	}
	return err
}

// list makes the listing newer than all that it lists.
func (k *Kept) list() (err error) {
	f, now := k.files[Listing], time.Now()
	if err = f.leaf.root.Chtimes(f.base, now, now); err == nil {
		f.info, err = f.leaf.root.Lstat(f.base)
	}
	return err
}

// remove removes what is not in place.
func remove(renewals []*renewal) {
	for i, r := range renewals {
		if r != nil {
			r.leaf.root.Remove(beside(i))
		}
	}
}

// back brings back what the first n renewals have replaced. Where a disk refuses
// that too there is nothing better to try.
func back(renewals []*renewal, n int) {
	for i, r := range renewals {
		if r == nil || n == 0 {
			continue
		}
		n--
		old := &renewal{kept: r.kept, data: r.kept.data}
		if old.stage(i) == nil {
			r.leaf.root.Rename(beside(i), r.base)
		}
	}
}
