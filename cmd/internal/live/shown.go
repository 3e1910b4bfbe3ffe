package live

import (
	"bytes"
	"encoding/json"
	"strconv"

	"seamwright/cmd/internal/render"
	"seamwright/lang/problem"
)

// Shown is what the page shows of a build.
type Shown struct {
	File     string // the pattern, as the person wrote it
	Good     bool   // the last build had no error
	Held     bool   // it had, but only that a released edition is printed otherwise: it is shown and not written
	Pattern  []byte // pattern.json of the last build that was good or held; nil if there was none
	Problems []problem.Problem
	Sources  []Text // of the last build, good or not
	Built    []Text // of the build that is shown, where that is another
}

// A Text is a file of the pattern.
type Text struct {
	Name string `json:"name"` // as pattern.json tells it: "" is the pattern itself
	File string `json:"file"` // as problems tell it
	Text string `json:"text"`
}

// A Fit says on which papers a finished size can be printed.
type Fit struct {
	Block string            `json:"block"`
	Size  int               `json:"size"` // index
	On    map[string]string `json:"on"`   // by paper: fits, parts (some section is glued together from such), no
}

// A Thick tells how many layers of cloth lie at points of a finished size.
type Thick struct {
	Block  string       `json:"block"`
	Size   int          `json:"size"`   // index
	Points [][3]float64 `json:"points"` // x and y in inches, layers; the thickest first
}

// json is the event. What the page gets is read by its own script only, and
// every text in it is shown as text.
func (s *Shown) json() []byte {
	var b bytes.Buffer
	member := func(name string, json []byte) {
		b.WriteString(`,"` + name + `":`)
		b.Write(json)
	}
	b.WriteString(`{"good":` + strconv.FormatBool(s.Good) + `,"held":` + strconv.FormatBool(s.Held))
	member("file", marshal(s.File))
	member("sources", marshal(s.Sources))
	member("built", marshal(s.Built))
	b.WriteString(`,"problems":`)
	if err := render.JSON(&b, s.Problems); err != nil {
		b.WriteString("null")
	}
	if s.Pattern == nil {
		member("pattern", []byte("null"))
	} else {
		member("pattern", s.Pattern)
	}
	b.WriteString("}")
	return b.Bytes()
}

// marshal writes plain data, which does not fail.
func marshal(v any) []byte {
	data, err := json.Marshal(v)
	if err != nil {
		return []byte("null")
	}
	return data
}
