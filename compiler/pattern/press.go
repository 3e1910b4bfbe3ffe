package pattern

import "strconv"

// A Press says to which side of a join its seam allowances are pressed. Seams
// inside a section are no choice: they lie toward the newer piece.
type Press int8

const (
	Unpressed  Press = iota // not worked out yet
	PressLeft               // toward the part on the left, as seen from A to B
	PressRight              // toward the part on the right
	PressOpen               // one allowance to each side
)

// A PressReason says why a join is pressed as it is.
type PressReason int8

const (
	NoReason   PressReason = iota
	Nests                  // lies against the seams that it meets across a later join
	FewerSeams             // fewer seams end on that side: less bulk
	EitherSide             // nothing speaks for a side
	ManyMeet               // Join.Meet seams come together at one of its points
	SameWay                // seams that cross it are pressed the same way: nothing nests
	BothWays               // would have to lie both ways: one of the seams it meets does not nest
	PlainSide              // of a quilt: away from the blocks, toward sashing, a triangle, a border
	Mitred                 // the slanted seam at a corner of a border
)

// Code returns the reason in a word or two, for programs.
func (r PressReason) Code() string {
	return [...]string{"", "nests", "fewer seams", "either side", "many seams meet", "crossing seams lie the same way", "cannot nest", "away from the blocks", "mitre"}[r]
}

// PressWords says why, for people.
func (j *Join) PressWords() string { return j.Why.Words(j.Meet) }

// Words says why a join is pressed as it is, for people; meet is its Meet.
func (r PressReason) Words(meet int) string {
	switch r {
	case Nests:
		return "so that the seams nest at a later join"
	case FewerSeams:
		return "fewer seams are in the way there"
	case EitherSide:
		return "the other side would do as well"
	case ManyMeet:
		return strconv.Itoa(meet) + " seams meet at one point"
	case SameWay:
		return "seams that cross it lie the same way"
	case BothWays:
		return "no side lets it nest with all the seams it meets"
	case PlainSide:
		return "away from the blocks, as is usual"
	case Mitred:
		return "a mitre lies flattest so"
	}
	return ""
}
