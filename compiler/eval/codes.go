package eval

import "seamwright/lang/problem"

// Names.
const (
	UnknownName    problem.Code = "L201"
	UnknownUnit    problem.Code = "L202"
	UnknownHelper  problem.Code = "L203"
	TakenName      problem.Code = "L204" // a compass point or side
	NameTwice      problem.Code = "L205"
	UnknownFabric  problem.Code = "L206" // where only a fabric can stand
	SectionTwice   problem.Code = "L207"
	Unused         problem.Code = "L208"
	NoCompass      problem.Code = "L209" // n, ne, ... where there is no rectangle
	UnknownKind    problem.Code = "L210"
	UnknownSetting problem.Code = "L211"
	SettingValue   problem.Code = "L212"
	UnknownField   problem.Code = "L213"
	SettingTwice   problem.Code = "L214"
	UnknownBlock   problem.Code = "L215"
	PatternTwice   problem.Code = "L216"
	FabricValue    problem.Code = "L217" // neither light, medium nor dark
	AcceptForm     problem.Code = "L218"
	RecolourTwice  problem.Code = "L219"
)

// Kinds and arguments.
const (
	KindClash        problem.Code = "L220" // an operator between kinds that do not fit
	WrongKind        problem.Code = "L221"
	MinusForLine     problem.Code = "L222" // join w - e
	NotPoints        problem.Code = "L223" // 3--1
	NotACount        problem.Code = "L224"
	BareFinished     problem.Code = "L225"
	KindsDiffer      problem.Code = "L226" // branches, lists
	TooManyArguments problem.Code = "L230"
	MissingArgument  problem.Code = "L231"
	UnknownArgument  problem.Code = "L232"
	ArgumentTwice    problem.Code = "L233"
	ArgumentOrder    problem.Code = "L234"
	BlockArgument    problem.Code = "L235" // a block's parameter without a default
	HelperArguments  problem.Code = "L236"
)

// Values.
const (
	DividedByZero problem.Code = "L240"
	NoResult      problem.Code = "L241" // sqrt(-1), parallel lines, pick out of range
	OutOfReach    problem.Code = "L242"
	NoLengthLine  problem.Code = "L243"
	CheckFailed   problem.Code = "L244"
)

// Statements.
const (
	PieceNumber  problem.Code = "L250"
	FirstAlong   problem.Code = "L251"
	MissingAlong problem.Code = "L252"
	MissingAt    problem.Code = "L253"
	Misplaced    problem.Code = "L254"
	EmptySection problem.Code = "L256"
	UnitCircle   problem.Code = "L257"
	BadOutline   problem.Code = "L258"
	BadGrid      problem.Code = "L259"
)

// Finished sizes.
const (
	SizeRange    problem.Code = "L260"
	SizeRatio    problem.Code = "L261"
	SizeTwice    problem.Code = "L262"
	TooManySizes problem.Code = "L263"
)

// Other files.
const (
	NoFile       problem.Code = "L270"
	FileCircle   problem.Code = "L271"
	NotInFile    problem.Code = "L272"
	TooManyFiles problem.Code = "L273"
)

// Limits.
const (
	LongRange     problem.Code = "L280"
	TooManySteps  problem.Code = "L281"
	TooDeep       problem.Code = "L282" // units in units
	TooManyPieces problem.Code = "L284"
)

// Codes explains every code of this package, in order.
func Codes() []problem.Info {
	all := nameCodes()
	all = append(all, kindCodes()...)
	all = append(all, statementCodes()...)
	return append(all, limitCodes()...)
}
