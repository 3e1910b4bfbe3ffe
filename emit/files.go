package emit

import (
	"strconv"
	"strings"
	"sync"

	"seamwright/compiler/parallel"
)

// Files are outputs whose bytes are still to be made, each by a task.
type files struct {
	outputs []*Output
	tasks   []func()
	makes   []func() []byte
	isDrawn []bool // whether it is a drawing
	taken   map[string]bool
	drawn   sync.WaitGroup // until every drawing has its bytes
}

func (f *files) add(path string, data func() []byte) *Output {
	o := &Output{Path: path}
	f.outputs = append(f.outputs, o)
	f.tasks = append(f.tasks, func() { o.Data = data() })
	f.makes, f.isDrawn = append(f.makes, data), append(f.isDrawn, false)
	return o
}

// all returns the outputs as they are.
func (f *files) all() []Output {
	out := make([]Output, len(f.outputs))
	for i, o := range f.outputs {
		out[i] = *o
	}
	return out
}

// later returns the outputs still to be made, each when it is given. What a
// drawing was written into is then room for others.
func (f *files) later(r *room) []Output {
	out := f.all()
	for i := range out {
		out[i].late = func(put func([]byte) error) error {
			data := f.makes[i]()
			if f.isDrawn[i] {
				defer r.back(data)
			}
			return put(data)
		}
	}
	return out
}

// draw adds a drawing, which a later task may show after it has waited for drawn.
func (f *files) draw(path string, data func() []byte) *Output {
	f.drawn.Add(1)
	o := f.add(path, data)
	last := len(f.tasks) - 1
	f.isDrawn[last] = true
	f.tasks[last] = func() {
		defer f.drawn.Done()
		o.Data = data()
	}
	return o
}

// unique returns the name, with a number after it where it is taken: file
// systems may not tell Boat from boat.
func (f *files) unique(name string) string {
	if f.taken == nil {
		f.taken = map[string]bool{}
	}
	try := name
	for n := 2; f.taken[strings.ToLower(try)]; n++ {
		try = name + "-" + strconv.Itoa(n)
	}
	f.taken[strings.ToLower(try)] = true
	return try
}

// Few is how many pieces, in all sizes, make it not worth while to start other
// threads for sheets, diagrams and tables. A thread takes 0.1 ms to begin, and from
// then on the system keeps the memory of two processors in step: 12 pieces are made
// and written in 1 ms, and that took a tenth longer on two processors than on one.
const Few = 50

// inParallel runs the tasks on as many processors as there are, if that is worth
// while.
func inParallel(tasks []func(), worth bool) {
	parallel.Do(len(tasks), worth, func(i int) { tasks[i]() })
}

// safeName makes a block's name fit for a folder on every system: what is not a
// letter, a digit, - or _ becomes _.
func safeName(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '_'
	}, s)
	if s == "" {
		return "block"
	}
	return s
}
