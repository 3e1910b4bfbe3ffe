package testsew

import (
	"fmt"
	"strconv"
	"strings"
)

func (b *Block) text(w *strings.Builder) {
	fmt.Fprintf(w, "%s, finishes %s: %s sewn from %s\n", b.Title, b.size(), plural(b.Sections, "section"), b.sheets())
	if len(b.Findings) > 0 {
		for _, f := range b.Findings {
			tell(w, "FAULT", f)
		}
	}
	if b.Wrong == 0 && b.Compared > 0 {
		tell(w, "front", fmt.Sprintf("the picture everywhere (%s sq %s compared)", strconv.FormatFloat(b.Compared/b.unit.inches/b.unit.inches, 'f', 2, 64), b.unit.name))
	}
	if b.LeastAllowanceAt != "" {
		tell(w, "allowance", fmt.Sprintf("at least %s behind every seam and edge (least: %s)", b.unit.long(b.LeastAllowance, 3), b.LeastAllowanceAt))
	}
	if b.LeastMarginOf != "" {
		tell(w, "patches", fmt.Sprintf("reach at least %s beyond what they must cover (least: %s)", b.unit.long(b.LeastMargin, 3), b.LeastMarginOf))
	}
	if b.Pins > 0 {
		tell(w, "pins", fmt.Sprintf("%s to match; %s of marks, at most %s apart", plural(b.Points, "point"), plural(b.Pins, "pair"), b.unit.long(b.PinMiss, 3)))
	}
	if len(b.Layers) > 0 {
		tell(w, "layers", b.layers())
	}
	if b.Printed > 0 && len(b.Findings) == 0 {
		tell(w, "print", fmt.Sprintf("%s has every line of the sheets, and no other (%d compared)", printFile, b.Printed))
	}
	if len(b.Findings) == 0 {
		tell(w, "set", "complete: every section of the block is printed as often as it is sewn")
	}
}

// tell writes one line, its name in a column.
func tell(w *strings.Builder, name, text string) { fmt.Fprintf(w, "  %-10s %s\n", name, text) }

func (b *Block) size() string {
	if b.Finished[0] == b.Finished[1] {
		return figure(b.Finished[0]/b.unit.inches) + " " + b.unit.name
	}
	return figure(b.Finished[0]/b.unit.inches) + " x " + figure(b.Finished[1]/b.unit.inches) + " " + b.unit.name
}

func (b *Block) sheets() string {
	if b.Sheets == 0 {
		return "no sheets: every patch is cut exact"
	}
	return fmt.Sprintf("%s, %s printed", plural(b.Sheets, "sheet"), plural(b.Prints, "page"))
}

// layers tells how much of the block has how many layers of cloth, joins
// pressed as planned, and where it is thickest.
func (b *Block) layers() string {
	var shares []string
	for n, share := range b.Layers {
		if share >= 0.01 && n > 0 {
			shares = append(shares, fmt.Sprintf("%d on %.0f %%", n, 100*share))
		}
	}
	text := strings.Join(shares, ", ")
	for i, t := range b.Thickest {
		if i == 0 {
			text += fmt.Sprintf("; at most %d, joins pressed as planned, at", t.Layers)
		}
		if i > 0 {
			text += ";"
		}
		text += " " + b.unit.at(t.X, t.Y)
	}
	return text
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
