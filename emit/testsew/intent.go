package testsew

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
)

// An intent is what pattern.json tells of one block at one size: the picture,
// where each section lies in it, the order of joining, and how joins are pressed. Of sections only the
// outline and the colours of their spaces are taken, not how they are sewn.
type intent struct {
	block, folder string // folder of the size's files
	finished      pt
	outline       poly
	allowance     float64
	ease          float64
	shapes        []shape
	copies        []copied
	joins         []joint
	unit          unit // of the report
	points        int  // to match, as reported
}

// A shape is one section of the picture.
type shape struct {
	name    string
	outline poly
	areas   []coloured
}

type coloured struct {
	area   poly
	fabric string // its words
	space  string
}

// A copied is one section in its place.
type copied struct {
	shape int
	of    string
	move  func(pt) pt
}

// A joint is one join.
type joint struct {
	number      int
	a, b        pt
	left, right []int
	points      []pt
	press       string // left or right: toward that side; open, or not told
	begins      int    // of a partial seam's first part: the join that finishes it
	begun       int    // of that: the first part
}

// document is what is read of pattern.json; SCHEMA.md beside its writer.
type document struct {
	Schema   string
	Title    string
	Settings struct {
		Allowance, Ease float64
		Metric          bool
	}
	Fabrics []struct{ Name, Words string }
	Blocks  []struct {
		Name, Title string
		Sizes       []struct {
			Finished [2]float64
			Outline  [][2]float64
			Sections []struct {
				Name    string
				Outline [][2]float64
				Pieces  []struct {
					Space, Fabric string
					Polygon       [][2]float64
				}
			}
			Copies []struct {
				Section string
				Of      json.RawMessage
				Turn    float64
				Shift   [2]float64
			}
			Joins []struct {
				Number      int
				From, To    [2]float64
				Left, Right []int
				Match       [][2]float64
				Press       string
				Begins      int
				Begun       int
			}
			Checks struct {
				Points int `json:"points_to_match"`
			}
		}
	}
}

// readIntents reads pattern.json: one intent for each block and size.
func readIntents(data []byte) (title string, out []*intent, err error) {
	var d document
	if err := json.Unmarshal(data, &d); err != nil {
		return "", nil, fmt.Errorf("pattern.json: %w", err)
	}
	if d.Schema != "seamwright-pattern/1" {
		return "", nil, fmt.Errorf("pattern.json has the form %q", d.Schema)
	}
	words := map[string]string{}
	for _, f := range d.Fabrics {
		words[f.Name] = f.Words
	}
	for b := range d.Blocks {
		for s := range d.Blocks[b].Sizes {
			size := &d.Blocks[b].Sizes[s]
			in := &intent{block: d.Blocks[b].Title, finished: pt{size.Finished[0], size.Finished[1]},
				outline: polyOf(size.Outline), allowance: d.Settings.Allowance, ease: d.Settings.Ease, unit: unitOf(d.Settings.Metric), points: size.Checks.Points}
			index := map[string]int{}
			for i, sec := range size.Sections {
				index[sec.Name] = i
				sh := shape{name: sec.Name, outline: polyOf(sec.Outline)}
				for _, p := range sec.Pieces {
					sh.areas = append(sh.areas, coloured{polyOf(p.Polygon), words[p.Fabric], p.Space})
				}
				in.shapes = append(in.shapes, sh)
			}
			for _, c := range size.Copies {
				sin, cos := math.Sincos(c.Turn * math.Pi / 180)
				shift := pt{c.Shift[0], c.Shift[1]}
				in.copies = append(in.copies, copied{index[c.Section], strings.Trim(string(c.Of), `"`), func(p pt) pt {
					return pt{cos*p.x - sin*p.y, sin*p.x + cos*p.y}.add(shift)
				}})
			}
			for _, j := range size.Joins {
				in.joins = append(in.joins, joint{j.Number, pt{j.From[0], j.From[1]}, pt{j.To[0], j.To[1]}, j.Left, j.Right, polyOf(j.Match), j.Press, j.Begins, j.Begun})
			}
			out = append(out, in)
		}
	}
	return d.Title, out, nil
}

func polyOf(points [][2]float64) poly {
	out := make(poly, len(points))
	for i, p := range points {
		out[i] = pt{p[0], p[1]}
	}
	return out
}
