package edition

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Schema names the form of the file.
const Schema = "seamwright-editions/1"

// Suffix is what the file's name has after the pattern's, without extension.
const Suffix = ".editions.json"

// Editions are the released editions of one pattern. The zero value has none.
type Editions struct {
	edition int
	facts   []fact    // of the last one
	earlier []earlier // the latest first
}

// An earlier edition is told by what was otherwise in it than in the one after;
// a fact that was not there yet is null.
type earlier struct {
	Edition int                        `json:"edition"`
	Was     map[string]json.RawMessage `json:"was"`
}

// Numbers lists the editions, the last first.
func (e *Editions) Numbers() []int {
	if e.edition == 0 {
		return nil
	}
	all := []int{e.edition}
	for _, x := range e.earlier {
		all = append(all, x.Edition)
	}
	return all
}

// Last is the record of the last edition; nil where there is none.
func (e *Editions) Last() *Record { return e.Get(e.edition) }

// Get is the record of an edition; nil where it was not released.
func (e *Editions) Get(n int) *Record {
	if n == 0 || !slices.Contains(e.Numbers(), n) {
		return nil
	}
	facts := e.facts
	for i := 0; i < len(e.earlier) && e.edition != n; i++ {
		facts = before(facts, e.earlier[i].Was)
		if e.earlier[i].Edition == n {
			break
		}
	}
	r, err := record(n, facts)
	if err != nil { // Read has read them all
		panic(err)
	}
	return r
}

// before goes back from an edition to the one before it.
func before(facts []fact, was map[string]json.RawMessage) []fact {
	var out []fact
	left := map[string]bool{}
	for k := range was {
		left[k] = true
	}
	for _, f := range facts {
		old, changed := was[f.key]
		delete(left, f.key)
		switch {
		case !changed:
			out = append(out, f)
		case !isNull(old):
			out = append(out, fact{f.key, old})
		}
	}
	for _, k := range sorted(left) {
		out = append(out, fact{k, was[k]})
	}
	return out
}

func isNull(v json.RawMessage) bool { return string(v) == "null" }

func sorted[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// Add makes a record the last edition; one of the same number is replaced.
func (e *Editions) Add(r *Record) {
	facts := r.facts()
	if e.edition != 0 && e.edition != r.Edition {
		e.earlier = slices.Insert(e.earlier, 0, earlier{e.edition, difference(e.facts, facts)})
	}
	e.edition, e.facts = r.Edition, facts
}

// difference tells what was in facts that are otherwise now.
func difference(was, now []fact) map[string]json.RawMessage {
	out := map[string]json.RawMessage{}
	for _, f := range now {
		out[f.key] = json.RawMessage("null")
	}
	is := map[string]string{}
	for _, f := range now {
		is[f.key] = string(f.value)
	}
	for _, f := range was {
		if is[f.key] == string(f.value) {
			delete(out, f.key)
		} else {
			out[f.key] = f.value
		}
	}
	return out
}

// Bytes writes the file.
func (e *Editions) Bytes() []byte {
	var b bytes.Buffer
	b.WriteString("{\n\"schema\": \"" + Schema + "\",\n\"edition\": " + strconv.Itoa(e.edition) + ",\n\"facts\": {\n")
	lines := func(facts []fact) {
		for i, f := range facts {
			key, _ := json.Marshal(f.key) // a string can always be written
			b.Write(key)
			b.WriteString(": ")
			b.Write(f.value)
			if i+1 < len(facts) {
				b.WriteByte(',')
			}
			b.WriteByte('\n')
		}
	}
	lines(e.facts)
	b.WriteString("},\n\"earlier\": [")
	for i, x := range e.earlier {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n{\"edition\": " + strconv.Itoa(x.Edition) + ", \"was\": {\n")
		var facts []fact
		for _, k := range sorted(x.Was) {
			facts = append(facts, fact{k, x.Was[k]})
		}
		lines(facts)
		b.WriteString("}}")
	}
	if len(e.earlier) > 0 {
		b.WriteByte('\n')
	}
	b.WriteString("]\n}\n")
	return b.Bytes()
}

// Read reads the file. The error says what is wrong with it, for people.
func Read(data []byte) (*Editions, error) {
	var form struct {
		Schema  string
		Edition int
		Facts   json.RawMessage
		Earlier []earlier
	}
	if err := json.Unmarshal(data, &form); err != nil {
		return nil, damaged(data, err)
	}
	if form.Schema != Schema {
		return nil, fmt.Errorf("its schema is %q, where %q is expected", form.Schema, Schema)
	}
	e := &Editions{edition: form.Edition, earlier: form.Earlier}
	var err error
	if e.facts, err = ordered(form.Facts); err != nil {
		return nil, damaged(data, err)
	}
	last := form.Edition + 1
	facts := e.facts
	for i, n := range append([]int{form.Edition}, numbers(form.Earlier)...) {
		if n < 1 || n >= last {
			return nil, fmt.Errorf("its editions are not in order at %d", n)
		}
		last = n
		if i > 0 {
			for k, v := range form.Earlier[i-1].Was {
				if form.Earlier[i-1].Was[k], err = compact(v); err != nil {
					return nil, damaged(data, err)
				}
			}
			facts = before(facts, form.Earlier[i-1].Was)
		}
		if _, err := record(n, facts); err != nil {
			return nil, fmt.Errorf("edition %d: %w", n, err)
		}
	}
	return e, nil
}

func numbers(all []earlier) []int {
	var out []int
	for _, x := range all {
		out = append(out, x.Edition)
	}
	return out
}

// damaged words an error of the JSON, with its line.
func damaged(data []byte, err error) error {
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		line := bytes.Count(data[:min(int(syntax.Offset), len(data))], []byte("\n")) + 1
		if strings.Contains(string(data), "\n<<<<<<< ") {
			return fmt.Errorf("line %d: two versions of it were merged and not yet settled", line)
		}
		return fmt.Errorf("line %d: %w", line, err)
	}
	return err
}

// ordered reads an object and keeps the order of its members.
func ordered(object json.RawMessage) ([]fact, error) {
	d := json.NewDecoder(bytes.NewReader(object))
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		return nil, errors.New("there are no facts in it")
	}
	var out []fact
	seen := map[string]bool{}
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return nil, err
		}
		var value json.RawMessage
		if err := d.Decode(&value); err != nil {
			return nil, err
		}
		name := key.(string) // what stands before a value in an object that was read once
		if seen[name] {
			return nil, fmt.Errorf("%q is told twice", name)
		}
		seen[name] = true
		if value, err = compact(value); err != nil {
			return nil, err
		}
		out = append(out, fact{name, value})
	}
	return out, nil
}

// compact takes the blanks out, so that equal facts have equal bytes.
func compact(v json.RawMessage) (json.RawMessage, error) {
	var b bytes.Buffer
	err := json.Compact(&b, v)
	return b.Bytes(), err
}
