package report

import (
	"strconv"

	"seamwright/emit/booklet/words"
)

// pads tells what is in each pad, with its sum.
func (t *telling) pads(m *Made) {
	for i := range m.Pads {
		if i == 0 {
			t.heading("pads")
		}
		t.item(t.say("pad", "n", strconv.Itoa(i+1)), m.Pads[i].Words(t.said))
	}
}

// Words tells what is in a pad, with its sum, in the words of the report's catalogue.
func (p *Pad) Words(said *words.Catalogue) string {
	how := said.Say("pad_collated")
	if !p.Collated {
		how = said.Say("pad_kinds")
	}
	return said.Say("pad_holds", "blocks", said.Count("pad_blocks", p.Blocks), "sheets", said.Count("pad_sheets", p.Sheets),
		"all", strconv.Itoa(p.Blocks), "each", strconv.Itoa(p.Each), "spare", strconv.Itoa(p.Spare), "how", how)
}
