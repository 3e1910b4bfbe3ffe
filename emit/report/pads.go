package report

import (
	"fmt"
	"strconv"
)

// pads tells what is in each pad, with its sum.
func (t *telling) pads(m *Made) {
	for i := range m.Pads {
		if i == 0 {
			t.part("Pads")
		}
		t.item("pad "+strconv.Itoa(i+1), m.Pads[i].Words())
	}
}

// Words tells what is in a pad, with its sum.
func (p *Pad) Words() string {
	how := "block by block"
	if !p.Collated {
		how = "all of a kind together"
	}
	return fmt.Sprintf("%s, %s: %d x %d + %d spare; %s", count(p.Blocks, "block"), count(p.Sheets, "sheet"), p.Blocks, p.Each, p.Spare, how)
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}
