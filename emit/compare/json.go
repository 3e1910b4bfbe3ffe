package compare

import "encoding/json"

// Schema names the JSON form, which SCHEMA.md describes.
const Schema = "seamwright-changes/1"

// A Pair is one pattern that was compared.
type Pair struct {
	Old, New string // the names of the versions
	Report   *Report
	Only     string // "old" or "new" where there is no other; then Report is nil
}

// JSON writes what was compared.
func JSON(pairs []Pair) []byte {
	type compared struct {
		Old        string   `json:"old"`
		New        string   `json:"new"`
		Only       string   `json:"only"`
		OldEdition int      `json:"old_edition"`
		NewEdition int      `json:"new_edition"`
		Untold     bool     `json:"quilts_not_compared"`
		Changes    []Change `json:"changes"`
	}
	form := struct {
		Schema   string     `json:"schema"`
		Patterns []compared `json:"patterns"`
	}{Schema, []compared{}}
	for _, p := range pairs {
		c := compared{Old: p.Old, New: p.New, Only: p.Only, Changes: []Change{}}
		if r := p.Report; r != nil {
			c.OldEdition, c.NewEdition = r.Old.Edition, r.New.Edition
			c.Untold = r.Untold()
			for _, ch := range r.Changes {
				if ch.Sizes == nil {
					ch.Sizes = []string{}
				}
				c.Changes = append(c.Changes, ch)
			}
		}
		form.Patterns = append(form.Patterns, c)
	}
	data, err := json.MarshalIndent(form, "", "  ")
	if err != nil { // our own types hold nothing that could fail
		panic(err)
	}
	return append(data, '\n')
}
