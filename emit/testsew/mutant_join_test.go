package testsew

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path"
	"regexp"
	"slices"
	"testing"
)

// joinsOf calls f with the joins of every block and size in pattern.json, as
// plain data, and with a function that returns the build with what f changed.
func joinsOf(t *testing.T, files []File, f func(joins []any, remade func() []File)) {
	t.Helper()
	i := slices.IndexFunc(files, func(f File) bool { return f.Path == "pattern.json" })
	var doc map[string]any
	if err := json.Unmarshal(files[i].Data, &doc); err != nil {
		t.Fatal(err)
	}
	for _, b := range doc["blocks"].([]any) {
		for _, s := range b.(map[string]any)["sizes"].([]any) {
			f(s.(map[string]any)["joins"].([]any), func() []File {
				data, err := json.Marshal(doc)
				if err != nil {
					t.Fatal(err)
				}
				return changed(files, "pattern.json", data)
			})
		}
	}
}

func member(join any, name string) []any { return join.(map[string]any)[name].([]any) }

// Two joins that depend on each other, sewn in the wrong order; a join between
// other ends; a section on the wrong side; a section left out.
func TestWrongJoin(t *testing.T) {
	var mutants []mutant
	for name, files := range mutable(t) {
		joinsOf(t, files, func(joins []any, remade func() []File) {
			for i := range joins {
				j := joins[i].(map[string]any)
				from, left, right := j["from"], j["left"], j["right"]
				j["from"] = []any{from.([]any)[0].(float64)*0.9 + 0.05, from.([]any)[1].(float64)*0.9 + 0.05}
				mutants = append(mutants, mutant{fmt.Sprint(name, " join ", i+1, " from elsewhere"), remade()})
				j["from"] = from
				j["left"], j["right"] = right, left
				mutants = append(mutants, mutant{fmt.Sprint(name, " join ", i+1, " with its sides changed"), remade()})
				j["left"], j["right"] = []any{}, right
				mutants = append(mutants, mutant{fmt.Sprint(name, " join ", i+1, " of one side"), remade()})
				j["left"] = left
				if i == 0 || !depends(joins[i], joins[i-1]) {
					continue
				}
				joins[i], joins[i-1] = joins[i-1], joins[i]
				mutants = append(mutants, mutant{fmt.Sprint(name, " join ", i+1, " before ", i), remade()})
				joins[i], joins[i-1] = joins[i-1], joins[i]
			}
		})
	}
	verdicts(t, mutants, "join|joined")
}

// depends reports whether a join needs an earlier one: both of its sections lie
// on one side of it.
func depends(join, earlier any) bool {
	for _, side := range []string{"left", "right"} {
		all := member(join, side)
		if slices.Contains(all, member(earlier, "left")[0]) && slices.Contains(all, member(earlier, "right")[0]) {
			return true
		}
	}
	return false
}

// The words along one edge, changed: another section, or another letter.
func TestWrongEdge(t *testing.T) {
	var mutants []mutant
	re := regexp.MustCompile(`<desc>(edge . |. )?joins (edge )?(\S+)`)
	for name, files := range mutable(t) {
		for _, f := range named(files, "sheet-*.svg") {
			for _, m := range re.FindAllSubmatchIndex(f.Data, -1) {
				other := "Z"
				if c := f.Data[m[6]]; c >= 'a' && c <= 'z' {
					other = "z"
				}
				data := slices.Concat(f.Data[:m[6]], []byte(other), f.Data[m[7]:])
				mutants = append(mutants, mutant{fmt.Sprintf("%s %s %s", name, f.Path, f.Data[m[0]:m[1]]), changed(files, f.Path, data)})
			}
		}
	}
	verdicts(t, mutants, "an edge of section")
}

// A sheet that is printed too rarely; one that is missing; a section that is not
// on its sheet; a table that makes one too few.
func TestMissingCopy(t *testing.T) {
	var mutants []mutant
	head := regexp.MustCompile(`(?i)print (once|(\d+) times) for one block`)
	make := regexp.MustCompile(`(?m)^([A-Za-z]+),(\d+),`)
	for name, files := range mutable(t) {
		for _, f := range named(files, "sheet-*.svg") {
			more := head.ReplaceAll(f.Data, []byte("print 3 times for one block"))
			mutants = append(mutants, mutant{name + " " + f.Path + " printed 3 times", changed(files, f.Path, more)})
			mutants = append(mutants, mutant{name + " " + f.Path + " missing", slices.DeleteFunc(slices.Clone(files), func(g File) bool { return g.Path == f.Path })})
			for _, id := range regexp.MustCompile(`id="section-[A-Za-z]+" class="section"`).FindAll(f.Data, -1) {
				mutants = append(mutants, mutant{fmt.Sprintf("%s %s without %s", name, f.Path, id),
					changed(files, f.Path, bytes.Replace(f.Data, id, []byte(`id="x" class="x"`), 1))})
			}
		}
		for _, f := range named(files, sectionTable) {
			fewer := make.ReplaceAll(f.Data, []byte("$1,${2}1,"))
			mutants = append(mutants, mutant{name + " " + path.Dir(f.Path) + " table", changed(files, f.Path, fewer)})
		}
	}
	verdicts(t, mutants, "is printed .* times for a block|is on no sheet|the table makes section")
}
