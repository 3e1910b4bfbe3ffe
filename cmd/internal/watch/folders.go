package watch

import (
	"hash/maphash"
	"os"
	"path/filepath"

	"github.com/fsnotify/fsnotify"
)

// A watcher knows the files of one build and watches their folders.
type watcher struct {
	notify  *fsnotify.Watcher
	seed    maphash.Seed
	seen    map[string]content // by absolute path: what a file held before it was read
	names   map[string]bool    // whose events matter: the files, and every folder above them
	folders folders
}

// Folders are those that are watched, as they were when their watch began.
type folders map[string]os.FileInfo

// begin forgets the files of the last build.
func (w *watcher) begin() {
	w.seed = maphash.MakeSeed()
	w.seen, w.names = map[string]content{}, map[string]bool{}
}

// before notes what a file holds before a build reads it. If it changes in
// between, it differs from the note afterwards: a build too many does no harm.
func (w *watcher) before(name string) {
	at, err := filepath.Abs(name)
	if err != nil {
		return // the working folder is gone; there is nothing to be watched
	}
	if _, ok := w.seen[at]; !ok {
		w.seen[at] = look(at, w.seed)
	}
}

// arm watches the folders of all files; where one is missing, the nearest above
// it that is there. A folder that is moved or deleted says so itself, so those
// above need no watch: they may be busy ones, and every event wakes the program.
func (w *watcher) arm() {
	want := map[string]bool{}
	for name := range w.seen {
		w.want(want, name)
		if real, err := filepath.EvalSymlinks(name); err == nil && real != name {
			w.want(want, real)
		}
	}
	for folder := range w.folders {
		if !want[folder] {
			w.drop(folder)
		}
	}
	for folder := range want {
		info, err := os.Stat(folder)
		if old, ok := w.folders[folder]; ok {
			if err == nil && os.SameFile(old, info) {
				continue
			}
			w.drop(folder)
		}
		if err == nil && w.notify.Add(folder) == nil {
			w.folders[folder] = info
		}
	}
}

func (w *watcher) want(want map[string]bool, name string) {
	w.names[name] = true
	folder := filepath.Dir(name)
	there := folder
	for !isFolder(there) && there != filepath.Dir(there) {
		there = filepath.Dir(there)
	}
	want[there] = true
	for at := folder; ; at = filepath.Dir(at) {
		w.names[at] = true
		if at == filepath.Dir(at) {
			return
		}
	}
}

func isFolder(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

func (w *watcher) drop(folder string) {
	w.notify.Remove(folder) // fails where the folder is gone, and its watch with it
	delete(w.folders, folder)
}

// concerns reports whether an event may have to do with the files.
func (w *watcher) concerns(e fsnotify.Event) bool {
	name := filepath.Clean(e.Name)
	if e.Has(fsnotify.Remove) || e.Has(fsnotify.Rename) {
		if _, ok := w.folders[name]; ok {
			w.drop(name) // one made anew may look the same and is not watched
		}
	}
	return w.names[name]
}
