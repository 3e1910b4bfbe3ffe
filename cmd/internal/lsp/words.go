package lsp

import (
	"strconv"
	"strings"

	"seamwright/lang"
)

func itoa(n int) string { return strconv.Itoa(n) }

// reserved lists the words of the language.
func reserved() []string { return strings.Fields(lang.ReservedWords) }

// meaning tells what a word of the language does, "" where it is none.
func meaning(word string) string {
	for i := range meanings {
		if meanings[i][0] == word {
			return meanings[i][1]
		}
	}
	return ""
}

// meanings of the words, in the order of the alphabet; a test holds them to the
// language.
var meanings = [...][2]string{
	{"accept", "`accept CODE \"reason\"`: silences one warning here, and says why it is all right"},
	{"along", "`2 sky along P -- Q`: the line on which the piece is sewn. It goes on in both directions; the piece lies beyond it, seen from piece 1"},
	{"and", "both conditions hold"},
	{"as", "gives a name: `use a as b`; `place u as T`, whose sections are then TA, TB; in a colorway, `sky as sail` lets one cloth do both"},
	{"at", "a point: inside piece 1, where all lines are seen from; for other pieces, where the piece must lie; for a placed unit, where its own point comes to lie"},
	{"block", "a unit with finished sizes: what is sewn"},
	{"by", "`place u by c at P`: which of the unit's own points is laid on P; after `scrappy`, how many cloths there may be"},
	{"check", "`check CONDITION \"message\"`: an error in your words where the condition does not hold"},
	{"cm", "centimeters, right behind the number: `15cm`"},
	{"colorway", "other cloths for the same parts"},
	{"deg", "degrees, anticlockwise, right behind the number: `90deg`"},
	{"else", "what holds where the condition does not"},
	{"fabric", "`fabric sky \"sky\" light #dfeaf0`: a part that cloth plays; which cloth plays it is the maker's choice"},
	{"false", "does not hold"},
	{"finished", "the block's width as sewn into the quilt, seam allowances out of sight; several with commas"},
	{"for", "`for i in 1..4 { }` or `for p in nw, se { }`: once for every value, both ends included"},
	{"from", "`use unit from \"path\"`: the file; `join P -- Q from 12in`: only at that finished width and above"},
	{"if", "`if C { } else { }` chooses statements, `if C then A else B` a value"},
	{"in", "inches, right behind the number: `6in`; in `for`, what the loop runs through"},
	{"join", "`join P -- Q`: a seam between sections, from border to border. Joins are listed in the order in which they are sewn; the last runs right across"},
	{"let", "`let name = value`: a name for a value, until the end of the braces"},
	{"line", "`line P -- Q -- R`: seams of a drawn unit, for which sections and joins are found"},
	{"mm", "millimeters, right behind the number: `152mm`"},
	{"not", "the condition does not hold"},
	{"of", "`border 3in of deep`: the fabric"},
	{"or", "one of the conditions holds, or both"},
	{"outline", "`outline P, Q, R`: the corners of a unit that is no rectangle"},
	{"pad", "printed sheets, bound: `copies`, `spare`"},
	{"partial", "`join P -- Q partial`: a partial seam, sewn from P and left open at Q until a later join finishes it; `line P -- Q partial`, in a drawn unit: seams here may be sewn so"},
	{"pattern", "the pattern's name and settings"},
	{"piece", "a piece without its number, which is the next; in a drawn unit, the fabric of patches"},
	{"place", "`place unit at P turn 90deg reversed`: sets a unit in. Reversed first, then turned anticlockwise, both about its own point"},
	{"quilt", "a setting of blocks: `blocks`, `row`, `sashing`, `cornerstones`, `border`, `binding`"},
	{"reversed", "left and right swapped, before turning"},
	{"scrappy", "`scrappy by piece`, `section`, `unit` or `block`: at most as many different cloths as there are of those"},
	{"section", "what is sewn on one piece of paper: its pieces in sewing order"},
	{"then", "the value where the condition holds"},
	{"true", "holds"},
	{"turn", "by how much a unit is turned, anticlockwise: `turn 90deg`"},
	{"unit", "a part of a block, drawn on a grid of its own and placed as often as you like"},
	{"use", "`use log_cabin from \"std/log_cabin\"`: takes units from another file"},
}

// A setting is what may stand in the braces of a pattern, quilt or pad.
type setting struct{ of, name, does string }

// settings with their meanings; a test holds the names to the compiler.
var settings = [...]setting{
	{"pattern", "edition", "a whole number, printed on every sheet"},
	{"pattern", "author", "a text in quotes"},
	{"pattern", "year", "a text or a number"},
	{"pattern", "rights", "the permission line, in quotes"},
	{"pattern", "contact", "a text in quotes"},
	{"pattern", "corrections", "where errata are published, in quotes"},
	{"pattern", "note", "texts in quotes; may be repeated"},
	{"pattern", "allowance", "seam allowance, up to 1in; 1/4in unless you say so"},
	{"pattern", "extra", "left beyond the cutting line on the block's outer edges until it is joined"},
	{"pattern", "ease", "how much larger than its space a patch is cut on every side; 1/2in unless you say so"},
	{"pattern", "sheet", "the paper: letter, a4, legal, a3, tabloid, common, or a size such as 210mm x 279mm"},
	{"pattern", "margin", "of the paper; 1/2in unless you say so"},
	{"pattern", "cloth_width", "usable width of the cloth; 40in unless you say so"},
	{"pattern", "cut_from", "cloths that may serve instead of yardage: cut_from 18in x 21in, 9in x 21in for fat quarters and fat eighths"},
	{"pattern", "grain", "fabrics whose patches keep the straight grain on the block's edge, laid at a slant if need be: grain sky, sea"},
	{"pattern", "straighten", "cut off to straighten the end of each cloth"},
	{"pattern", "shrinkage", "of cloth that is washed first, per cent of its length"},
	{"pattern", "spare_strips", "strips to buy more of each cloth"},
	{"pattern", "miniature", "yes allows pieces narrower than 1/8 in"},
	{"pattern", "metric", "yes puts metric measures first"},
	{"pattern", "tint", "yes shows fabrics as pale tints on the foundation sheets"},
	{"pattern", "placement", "yes draws a faint line where the raw edge of each next patch lies"},
	{"pattern", "tile", "yes prints a section too large for the sheet in parts, to be glued together"},
	{"pattern", "scrap", "cloth that is there already: scrap 5in x 7in of sky, 4in x 4in"},
	{"pattern", "language", "of the sentences that are printed by themselves: en or de"},
	{"pattern", "limit", "a rule's limit, a comma, and the pattern's own value: limit near_miss, 3/8in"},
	{"pattern", "before", "the name of a sentence, a comma, and your text to stand before it"},
	{"pattern", "instead", "the name of a sentence, a comma, and your text in its place"},
	{"pattern", "picture", "a PNG or JPEG of yours for the booklet, and the words below it: picture \"sewn.jpg\", \"Sewn in linen.\""},
	{"quilt", "blocks", "blocks, how many across and down, the finished width: blocks boat, 5 x 6, 8in"},
	{"quilt", "row", "one row, block by block, from the top down: row boat, star turn 90deg"},
	{"quilt", "sashing", "strips between the blocks: 1in of sky; round all of them too: 1in of sky, around"},
	{"quilt", "cornerstones", "the fabric where sashing crosses"},
	{"quilt", "border", "3in of deep; repeated for further ones, from the inside out"},
	{"quilt", "binding", "2 1/2in of hull, the width of the strip as it is cut; `hull` alone is 2 1/4 in"},
	{"quilt", "on_point", "the blocks stand on a corner: the fabric of the setting triangles"},
	{"quilt", "backing", "how far it reaches beyond the quilt on every side, and its fabric: 4in of deep"},
	{"quilt", "batting", "how far it reaches beyond the quilt: 3in"},
	{"pad", "copies", "blocks in one pad"},
	{"pad", "spare", "sheets more than needed"},
	{"pad", "size", "the finished size that is printed; every size unless you say so"},
	{"pad", "collated", "yes: the sheets lie block by block; no: all of a kind together"},
	{"pad", "glue", "along the head, left free for the glue"},
	{"pad", "gripper", "along foot and sides, left free for the press to hold"},
	{"pad", "bleed", "how far beyond the page the printer wants what is cut through"},
}
