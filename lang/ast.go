package lang

import "seamwright/lang/problem"

type (
	// Span is where a node stands: its bytes in the file it was read from.
	Span = problem.Span

	// A Node is any part of the tree.
	Node interface{ Where() Span }

	// A Decl stands at the top of a file.
	Decl interface {
		Node
		decl()
	}
	// A Stmt stands in the braces of a unit, a section, a loop or a condition.
	Stmt interface {
		Node
		stmt()
	}
	// An Expr has a value.
	Expr interface {
		Node
		expr()
	}
)

// Where returns the node's own span. Every node embeds a Span under this name.
type node struct{ Span Span }

func (n node) Where() Span { return n.Span }

// A File is one parsed text. Decls are in the order of the text.
type File struct {
	Source   *problem.Source
	Decls    []Decl
	Comments []Comment // all of them, in order; the formatter puts them back
}

// A Comment runs from // to the end of its line. Doc comments begin with ///
// and stand on a line of their own.
type Comment struct {
	Span Span
	Text string // with its slashes, without the line break
	Doc  bool
}

// An Ident is a name as written. Its Text is empty where the name is missing.
type Ident struct {
	Span Span
	Text string
}

// ---- top of a file

// Pattern is `pattern "Name" { props }`.
type Pattern struct {
	node
	Name   *String
	Props  []*Prop
	Braces Span
}

// Quilt is `quilt ["Name"] { props }`.
type Quilt struct {
	node
	Name   *String // nil if none
	Props  []*Prop
	Braces Span
}

// Pad is `pad { props }`.
type Pad struct {
	node
	Props  []*Prop
	Braces Span
}

// Prop is one setting: a name and one or more values, `border 3in of deep`.
type Prop struct {
	node
	Name   Ident
	Values []*PropValue
}

// PropValue is `expr [x expr] [of expr] [turn expr] [reversed]`; By, Of and Turn
// are nil where not written. With the last two a row of a quilt is said block by
// block: `row boat, star turn 90deg, boat reversed`.
type PropValue struct {
	node
	Value, By, Of, Turn Expr
	Reversed            bool
}

// Use is `use a as b, c from "path"`.
type Use struct {
	node
	Names []UseName
	Path  *String
}

// UseName is one imported unit; As is empty if it keeps its name.
type UseName struct {
	Name, As Ident
}

// Fabric is `fabric name "words" value #colour [scrappy by scope]`.
type Fabric struct {
	node
	Doc     string
	Name    Ident
	Words   *String // nil: the name serves
	Value   Ident   // light, medium, dark, ...: checked by the compiler
	Colour  Colour
	Scrappy Ident // piece, section, unit, block; empty if not scrappy
}

// Colour is `#rrggbb`.
type Colour struct {
	Span Span
	RGB  uint32
}

// Colorway is `colorway name ["words"] { recolours }`.
type Colorway struct {
	node
	Doc      string
	Name     Ident
	Words    *String
	Recolour []*Recolour
	Braces   Span
}

// Recolour is `a as b`, or `a ["words"] [value] #colour`.
type Recolour struct {
	node
	Name   Ident
	As     Ident // empty if given by words and colour
	Words  *String
	Value  Ident
	Colour *Colour
}

// Unit is a unit or, where Block is true, a block: a unit with finished sizes.
type Unit struct {
	node
	Doc      string
	Block    bool
	Name     Ident
	Params   []*Param
	Width    Expr   // W x H; nil where an outline is written
	Height   Expr   //
	Outline  []Expr // corners; nil where W x H is written
	Finished []*Size
	Body     *Body
}

// Size is one finished size; Height is nil where only the width is written.
type Size struct {
	node
	Width, Height Expr
}

// Param is `name: kind [= default]`.
type Param struct {
	node
	Name    Ident
	Kind    Ident
	Default Expr
}

// Accept is `accept CODE "reason"`, at the top of a file or in a body.
type Accept struct {
	node
	Code   Ident
	Reason *String
}

// BadDecl and BadStmt and BadExpr are text that could not be read; the
// problem that says why has been reported.
type (
	BadDecl struct{ node }
	BadStmt struct{ node }
	BadExpr struct{ node }
)

// ---- in braces

// Body is `{ statements }`.
type Body struct {
	node
	Stmts []Stmt
}

// Let is `let name = expr`.
type Let struct {
	node
	Name  Ident
	Value Expr
}

// Join is `join line, line partial from length`.
type Join struct {
	node
	Lines   []Expr
	Partial bool // sewn this far only; a later join finishes it
	From    Expr // nil: at every size
}

// Section is `section [name] { pieces }`.
type Section struct {
	node
	Name Ident // empty: the next free letter
	Body *Body
}

// Keep is `section name at point, point` or `section along line, line`, in a drawn
// unit: the patches at the points share a section, or what lies left and right of
// any part of the lines does. At or Along is empty.
type Keep struct {
	node
	Name  Ident // empty: the next free letter
	At    []Expr
	Along []Expr
}

// Piece is `2 fabric along line at point, point` or `piece fabric ...`; in a
// drawn unit it may give corners, `piece fabric (0, 0), (2, 0), (1, 2)`.
type Piece struct {
	node
	Number  *Number // nil where `piece` is written
	Fabric  Expr
	Along   Expr   // nil for the first piece
	At      []Expr // empty if none
	Corners []Expr
}

// Place is `place unit(args) as name by point at point turn angle reversed`.
// The clauses may stand in any order; a nil clause is not written.
type Place struct {
	node
	Unit         Ident
	Args         []*Arg
	HasArgs      bool // parentheses are written, even if empty
	As           Ident
	By, At, Turn Expr
	Reversed     bool
	Clauses      []string // the order in which they are written, for the formatter
}

// Line is `line p -- q -- r, s -- t partial`, in a drawn unit.
type Line struct {
	node
	Chains  [][]Expr
	Partial bool // its seams may be sewn part of the way first
}

// For is `for name in from..to { }` or `for name in a, b, c { }`.
type For struct {
	node
	Name   Ident
	From   Expr
	To     Expr   // nil for a list
	Values []Expr // the list; nil for a range
	Body   *Body
}

// If is `if cond { } else { }`; Else is nil, *If or *Body.
type If struct {
	node
	Cond Expr
	Then *Body
	Else Node
}

// Check is `check cond "message"`.
type Check struct {
	node
	Cond    Expr
	Message *String
}

// ---- values

// Number is a literal, exact: Num/Den of Unit. `2 1/2in` is 5/2 In. It is small, for
// a long text has tens of thousands: how it is written, the text tells.
type Number struct {
	node
	Num, Den int64 // Den > 0
	Unit     Measure
	Big      bool // too long for Num/Den; the problem has been reported
}

// A Measure is what a number counts, as it is written behind it.
type Measure uint8

// Measures. Plain numbers are grid squares, or count something.
const (
	Plain Measure = iota
	In
	Cm
	Mm
	Deg
)

func (m Measure) String() string { return [...]string{"", "in", "cm", "mm", "deg"}[m] }

// String is a literal; Text is its meaning, escapes undone.
type String struct {
	node
	Text string
}

// Bool is true or false.
type Bool struct {
	node
	Value bool
}

// Name is a use of a name.
type Name struct {
	node
	Text string
}

// Call is `helper(args)`.
type Call struct {
	node
	Func Ident
	Args []*Arg
}

// Arg is one argument; Name is empty where it is not named.
type Arg struct {
	node
	Name  Ident
	Value Expr
}

// Point is `(x, y)`.
type Point struct {
	node
	X, Y Expr
}

// Paren is `(expr)`.
type Paren struct {
	node
	X Expr
}

// Unary is `-x` or `not x`; Op is "-" or "not".
type Unary struct {
	node
	Op string
	X  Expr
}

// Binary is `x op y`; Op is one of or and == != < <= > >= + - * / and "--",
// which joins two points.
type Binary struct {
	node
	Op   string
	At   Span // the operator
	X, Y Expr
}

// Field is `x.name`.
type Field struct {
	node
	X    Expr
	Name Ident
}

// Cond is `if c then a else b`.
type Cond struct {
	node
	If, Then, Else Expr
}

func (*Pattern) decl()  {}
func (*Quilt) decl()    {}
func (*Pad) decl()      {}
func (*Use) decl()      {}
func (*Fabric) decl()   {}
func (*Colorway) decl() {}
func (*Unit) decl()     {}
func (*Accept) decl()   {}
func (*BadDecl) decl()  {}

func (*Let) stmt()     {}
func (*Join) stmt()    {}
func (*Section) stmt() {}
func (*Keep) stmt()    {}
func (*Piece) stmt()   {}
func (*Place) stmt()   {}
func (*Line) stmt()    {}
func (*For) stmt()     {}
func (*If) stmt()      {}
func (*Check) stmt()   {}
func (*Accept) stmt()  {}
func (*BadStmt) stmt() {}

func (*Number) expr()  {}
func (*String) expr()  {}
func (*Bool) expr()    {}
func (*Name) expr()    {}
func (*Call) expr()    {}
func (*Point) expr()   {}
func (*Paren) expr()   {}
func (*Unary) expr()   {}
func (*Binary) expr()  {}
func (*Field) expr()   {}
func (*Cond) expr()    {}
func (*BadExpr) expr() {}
