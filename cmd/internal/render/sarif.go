package render

import (
	"io"
	"path/filepath"
	"strings"

	"seamwright/lang/problem"
)

// The shapes below are the parts of SARIF 2.1.0 that are used, under the names
// of the standard (OASIS, Static Analysis Results Interchange Format 2.1.0,
// sections 3.13 to 3.57). Columns are UTF-16 code units, counted from 1.
type (
	sarifLog struct {
		Schema  string     `json:"$schema"`
		Version string     `json:"version"`
		Runs    []sarifRun `json:"runs"`
	}
	sarifRun struct {
		Tool       sarifTool     `json:"tool"`
		ColumnKind string        `json:"columnKind"`
		Results    []sarifResult `json:"results"`
	}
	sarifTool struct {
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct {
		Name  string      `json:"name"`
		Rules []sarifRule `json:"rules"`
	}
	sarifRule struct {
		ID    string     `json:"id"`
		Short *sarifText `json:"shortDescription,omitempty"`
		Full  *sarifText `json:"fullDescription,omitempty"`
	}
	sarifText struct {
		Text string `json:"text"`
	}
	sarifResult struct {
		RuleID    string          `json:"ruleId"`
		RuleIndex int             `json:"ruleIndex"`
		Level     string          `json:"level"`
		Message   sarifText       `json:"message"`
		Locations []sarifLocation `json:"locations,omitempty"`
		Related   []sarifLocation `json:"relatedLocations,omitempty"`
		Fixes     []sarifFix      `json:"fixes,omitempty"`
	}
	sarifLocation struct {
		Physical sarifPhysical `json:"physicalLocation"`
		Message  *sarifText    `json:"message,omitempty"`
	}
	sarifPhysical struct {
		Artifact sarifArtifact `json:"artifactLocation"`
		Region   sarifRegion   `json:"region"`
	}
	sarifArtifact struct {
		URI string `json:"uri"`
	}
	sarifRegion struct {
		StartLine   int `json:"startLine"`
		StartColumn int `json:"startColumn"`
		EndLine     int `json:"endLine"`
		EndColumn   int `json:"endColumn"`
	}
	sarifFix struct {
		Description sarifText     `json:"description"`
		Changes     []sarifChange `json:"artifactChanges"`
	}
	sarifChange struct {
		Artifact     sarifArtifact      `json:"artifactLocation"`
		Replacements []sarifReplacement `json:"replacements"`
	}
	sarifReplacement struct {
		Deleted  sarifRegion `json:"deletedRegion"`
		Inserted sarifText   `json:"insertedContent"`
	}
)

// SARIF writes all problems as one SARIF 2.1.0 log with one run. Infos describe
// the codes; those that are not raised are left out.
func SARIF(w io.Writer, ps []problem.Problem, infos []problem.Info) error {
	run := sarifRun{ColumnKind: "utf16CodeUnits", Results: make([]sarifResult, 0, len(ps))}
	run.Tool.Driver = sarifDriver{Name: "seamwright", Rules: []sarifRule{}}
	index := map[problem.Code]int{}
	for i := range ps {
		code := ps[i].Code
		if _, ok := index[code]; !ok {
			index[code] = len(run.Tool.Driver.Rules)
			run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, rule(code, infos))
		}
		run.Results = append(run.Results, result(&ps[i], index[code]))
	}
	return encode(w, sarifLog{
		Schema:  "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
		Version: "2.1.0",
		Runs:    []sarifRun{run},
	})
}

func rule(code problem.Code, infos []problem.Info) sarifRule {
	r := sarifRule{ID: string(code)}
	for i := range infos {
		if infos[i].Code == code {
			r.Short = &sarifText{infos[i].Title}
			r.Full = &sarifText{infos[i].Rule}
		}
	}
	return r
}

func result(p *problem.Problem, ruleIndex int) sarifResult {
	text := p.Message
	if p.Help != "" {
		text += "\n" + p.Help
	}
	r := sarifResult{
		RuleID: string(p.Code), RuleIndex: ruleIndex,
		Level:   p.Severity.String(), // error, warning and note are SARIF's own words
		Message: sarifText{text},
	}
	if p.At.Source == nil {
		return r
	}
	r.Locations = []sarifLocation{{Physical: physical(p.At)}}
	for _, l := range p.Labels {
		if l.At.Source != nil {
			r.Related = append(r.Related, sarifLocation{physical(l.At), &sarifText{l.Text}})
		}
	}
	if len(p.Edits) > 0 {
		change := sarifChange{Artifact: artifact(p.At.Source.Name)}
		for _, e := range p.Edits {
			at := physical(problem.Place{Source: p.At.Source, Span: e.At})
			change.Replacements = append(change.Replacements, sarifReplacement{at.Region, sarifText{e.New}})
		}
		r.Fixes = []sarifFix{{sarifText{"mend it"}, []sarifChange{change}}}
	}
	return r
}

func physical(p problem.Place) sarifPhysical {
	from, to := p.Source.Position(p.Span.Start), p.Source.Position(p.Span.End)
	return sarifPhysical{
		Artifact: artifact(p.Source.Name),
		Region:   sarifRegion{from.Line, from.UTF16 + 1, to.Line, to.UTF16 + 1},
	}
}

// artifact names a file by a URI reference, as the standard asks: forward
// slashes, relative where the name is, odd characters escaped. It is written out
// here because net/url brings tables that every start of the program would make.
func artifact(name string) sarifArtifact {
	path := filepath.ToSlash(name)
	if !filepath.IsAbs(name) {
		first, _, _ := strings.Cut(path, "/")
		if strings.Contains(first, ":") {
			path = "./" + path // or what stands before the colon would be a scheme
		}
		return sarifArtifact{escaped(path)}
	}
	return sarifArtifact{"file:///" + strings.TrimPrefix(escaped(path), "/")}
}

// escaped writes what may not stand in the path of a URI (RFC 3986, section 3.3)
// as % and two hexadecimal digits; some that may are escaped too.
func escaped(path string) string {
	const plain, digits = "-_.~$&+,/:;=@", "0123456789ABCDEF"
	var s strings.Builder
	for _, c := range []byte(path) {
		if 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || '0' <= c && c <= '9' || strings.IndexByte(plain, c) >= 0 {
			s.WriteByte(c)
		} else {
			s.Write([]byte{'%', digits[c>>4], digits[c&15]})
		}
	}
	return s.String()
}
