package render

import (
	"encoding/json"
	"io"

	"seamwright/lang/problem"
)

// JSONVersion is the version of the JSON form. It rises when a field changes
// its meaning or goes; new fields may come without notice.
const JSONVersion = 1

type (
	jsonReport struct {
		Version  int           `json:"version"`
		Errors   int           `json:"errors"`
		Warnings int           `json:"warnings"`
		Problems []jsonProblem `json:"problems"`
	}
	jsonProblem struct {
		Code     string      `json:"code"`
		Severity string      `json:"severity"`
		Message  string      `json:"message"`
		At       *jsonPlace  `json:"at,omitempty"`
		Labels   []jsonLabel `json:"labels,omitempty"`
		Help     string      `json:"help,omitempty"`
		Edits    []jsonEdit  `json:"edits,omitempty"`
		Drawn    *jsonDrawn  `json:"drawn,omitempty"`
	}
	jsonPlace struct {
		File  string  `json:"file"`
		Start jsonPos `json:"start"`
		End   jsonPos `json:"end"`
	}
	// Lines and columns are counted from 1, columns in characters; UTF16 is the
	// column in UTF-16 code units from 0, offset is bytes from 0.
	jsonPos struct {
		Line   int   `json:"line"`
		Column int   `json:"column"`
		UTF16  int   `json:"utf16"`
		Offset int32 `json:"offset"`
	}
	jsonLabel struct {
		At   *jsonPlace `json:"at"`
		Text string     `json:"text"`
	}
	jsonEdit struct {
		At  *jsonPlace `json:"at"`
		New string     `json:"new"`
	}
	jsonDrawn struct {
		Unit   string          `json:"unit"`
		Points [][2]float64    `json:"points,omitempty"`
		Lines  [][2][2]float64 `json:"lines,omitempty"`
		Cure   [][2][2]float64 `json:"cure,omitempty"`
		Ground *jsonGround     `json:"ground,omitempty"`
	}
	jsonGround struct {
		Outline [][2]float64    `json:"outline"`
		Lines   [][2][2]float64 `json:"lines"`
	}
)

// JSON writes all problems as one JSON object, UTF-8, with a line break at its
// end. The form is described in the README.
func JSON(w io.Writer, ps []problem.Problem) error {
	r := jsonReport{Version: JSONVersion, Problems: make([]jsonProblem, len(ps))}
	for i := range ps {
		p := &ps[i]
		switch p.Severity {
		case problem.Error:
			r.Errors++
		case problem.Warning:
			r.Warnings++
		}
		j := jsonProblem{
			Code: string(p.Code), Severity: p.Severity.String(), Message: p.Message,
			At: place(p.At), Help: p.Help,
		}
		for _, l := range p.Labels {
			j.Labels = append(j.Labels, jsonLabel{place(l.At), l.Text})
		}
		for _, e := range p.Edits {
			j.Edits = append(j.Edits, jsonEdit{place(problem.Place{Source: p.At.Source, Span: e.At}), e.New})
		}
		if p.Drawn != nil {
			j.Drawn = &jsonDrawn{p.Drawn.Unit, p.Drawn.Points, p.Drawn.Lines, p.Drawn.Cure, (*jsonGround)(p.Drawn.Ground)}
		}
		r.Problems[i] = j
	}
	return encode(w, r)
}

func encode(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

func place(p problem.Place) *jsonPlace {
	if p.Source == nil {
		return nil
	}
	pos := func(offset int32) jsonPos {
		at := p.Source.Position(offset)
		return jsonPos{at.Line, at.Column, at.UTF16, offset}
	}
	return &jsonPlace{p.Source.Name, pos(p.Span.Start), pos(p.Span.End)}
}
