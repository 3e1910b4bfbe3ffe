package lang

// The grammar, as tags that participle reads. It is the specification: package
// grammar makes of it the EBNF that the reference shows, and a test holds the
// parser that is used (parser.go), which is written by hand for speed and for
// going on after mistakes, to it. The program runs nothing of it, and is not made
// larger by it.
//
// One token is looked ahead, but for the name of an argument, where it is two.

// Tagged is a whole file after the tagged grammar.
type Tagged = gFile

type (
	gFile struct {
		Tops []*gTop `parser:"( @@ | ';' )*"`
	}
	gTop struct {
		Pattern  *gPattern  `parser:"  @@"`
		Use      *gUse      `parser:"| @@"`
		Fabric   *gFabric   `parser:"| @@"`
		Colorway *gColorway `parser:"| @@"`
		Unit     *gUnit     `parser:"| @@"`
		Block    *gBlock    `parser:"| @@"`
		Quilt    *gQuilt    `parser:"| @@"`
		Pad      *gPad      `parser:"| @@"`
		Accept   *gAccept   `parser:"| @@"`
	}
	gPattern struct {
		Name  string   `parser:"'pattern' @String"`
		Props []*gProp `parser:"'{' ( @@ | ';' )* '}'"`
	}
	gQuilt struct {
		Quilt bool     `parser:"@'quilt'"`
		Name  string   `parser:"@String?"`
		Props []*gProp `parser:"'{' ( @@ | ';' )* '}'"`
	}
	gPad struct {
		Pad   bool     `parser:"@'pad'"`
		Props []*gProp `parser:"'{' ( @@ | ';' )* '}'"`
	}
	gProp struct {
		Name   string    `parser:"@Name"`
		Values []*gValue `parser:"@@ ( ',' @@ )*"`
	}
	gValue struct {
		Value    *gExpr `parser:"@@"`
		By       *gExpr `parser:"( 'x' @@ )?"`
		Of       *gExpr `parser:"( 'of' @@ )?"`
		Turn     *gExpr `parser:"( 'turn' @@ )?"`
		Reversed bool   `parser:"@'reversed'?"`
	}
	gUse struct {
		Names []*gUsed `parser:"'use' @@ ( ',' @@ )*"`
		Path  string   `parser:"'from' @String"`
	}
	gUsed struct {
		Name *gName `parser:"@@"`
		As   *gName `parser:"( 'as' @@ )?"`
	}
	gFabric struct {
		Name    *gName `parser:"'fabric' @@"`
		Words   string `parser:"@String?"`
		Value   *gName `parser:"@@"`
		Colour  string `parser:"@Colour"`
		Scrappy string `parser:"( 'scrappy' 'by' @( 'piece' | 'section' | 'unit' | 'block' ) )?"`
	}
	gColorway struct {
		Name     *gName      `parser:"'colorway' @@"`
		Words    string      `parser:"@String?"`
		Recolour []*gRecolor `parser:"'{' ( @@ | ';' )* '}'"`
	}
	gRecolor struct {
		Name   *gName `parser:"@@"`
		As     *gName `parser:"( 'as' @@"`
		Words  string `parser:"| @String?"`
		Value  *gName `parser:"  @@?"`
		Colour string `parser:"  @Colour )"`
	}
	gAccept struct {
		Code   *gName `parser:"'accept' @@"`
		Reason string `parser:"@String"`
	}
	gUnit struct {
		Name  *gName  `parser:"'unit' @@"`
		Shape *gShape `parser:"@@"`
		Body  *gBody  `parser:"@@"`
	}
	gBlock struct {
		Name     *gName   `parser:"'block' @@"`
		Shape    *gShape  `parser:"@@"`
		Finished []*gSize `parser:"'finished' @@ ( ',' @@ )*"`
		Body     *gBody   `parser:"@@"`
	}
	gShape struct {
		Params  *gParams `parser:"(   @@"`
		Outline []*gExpr `parser:"    ( 'outline' @@ ( ',' @@ )*"`
		Width   *gExpr   `parser:"    | @@ 'x'"`
		Height  *gExpr   `parser:"      @@ )"`
		Corners []*gExpr `parser:"  | 'outline' @@ ( ',' @@ )*"`
		Across  string   `parser:"  | @Number 'x'"`
		Up      string   `parser:"    @Number )"`
	}
	gSize struct {
		Width  *gExpr `parser:"@@"`
		Height *gExpr `parser:"( 'x' @@ )?"`
	}
	gParams struct {
		Params []*gParam `parser:"'(' ( @@ ( ',' @@ )* )? ')'"`
	}
	gParam struct {
		Name    *gName `parser:"@@ ':'"`
		Kind    string `parser:"@( Name | 'x' | 'fabric' | 'line' )"`
		Default *gExpr `parser:"( '=' @@ )?"`
	}
	gName struct {
		Text string `parser:"@( Name | 'x' )"`
	}
)

type (
	gBody struct {
		Open  bool     `parser:"@'{'"`
		Stmts []*gStmt `parser:"( @@ | ';' )* '}'"`
	}
	gStmt struct {
		Join    *gJoin       `parser:"  @@"`
		Section *gSection    `parser:"| @@"`
		Place   *gPlace      `parser:"| @@"`
		Line    *gLine       `parser:"| @@"`
		For     *gFor        `parser:"| @@"`
		If      *gIf         `parser:"| @@"`
		Common  *gCommonStmt `parser:"| @@"`
	}
	gCommonStmt struct {
		Piece  *gPiece  `parser:"  @@"`
		Let    *gLet    `parser:"| @@"`
		Check  *gCheck  `parser:"| @@"`
		Accept *gAccept `parser:"| @@"`
	}
	gFor struct {
		Loop *gLoop `parser:"@@"`
		Body *gBody `parser:"@@"`
	}
	gIf struct {
		Cond *gExpr `parser:"'if' @@"`
		Then *gBody `parser:"@@"`
		Elif *gIf   `parser:"( 'else' ( @@"`
		Else *gBody `parser:"         | @@ ) )?"`
	}
	gSection struct {
		Section bool          `parser:"@'section'"`
		Along   []*gExpr      `parser:"(   'along' @@ ( ',' @@ )*"`
		Name    *gName        `parser:"  | @@?"`
		At      []*gExpr      `parser:"    ( 'at' @@ ( ',' @@ )*"`
		Body    *gSectionBody `parser:"    | @@ ) )"`
	}
	gSectionBody struct {
		Open  bool            `parser:"@'{'"`
		Stmts []*gSectionStmt `parser:"( @@ | ';' )* '}'"`
	}
	gSectionStmt struct {
		For    *gSectionFor `parser:"  @@"`
		If     *gSectionIf  `parser:"| @@"`
		Common *gCommonStmt `parser:"| @@"`
	}
	gSectionFor struct {
		Loop *gLoop        `parser:"@@"`
		Body *gSectionBody `parser:"@@"`
	}
	gSectionIf struct {
		Cond *gExpr        `parser:"'if' @@"`
		Then *gSectionBody `parser:"@@"`
		Elif *gSectionIf   `parser:"( 'else' ( @@"`
		Else *gSectionBody `parser:"         | @@ ) )?"`
	}
	gLoop struct {
		Name  *gName   `parser:"'for' @@ 'in'"`
		First *gExpr   `parser:"@@"`
		To    *gExpr   `parser:"( '..' @@"`
		More  []*gExpr `parser:"| ( ',' @@ )+ )?"`
	}
	gLet struct {
		Name  *gName `parser:"'let' @@ '='"`
		Value *gExpr `parser:"@@"`
	}
	gJoin struct {
		Lines   []*gExpr `parser:"'join' @@ ( ',' @@ )*"`
		Partial bool     `parser:"@'partial'?"`
		From    *gExpr   `parser:"( 'from' @@ )?"`
	}
	gPiece struct {
		Number string   `parser:"( @Number | 'piece' )"`
		Fabric *gExpr   `parser:"@@"`
		Corner *gCorner `parser:"( @@"`
		Others []*gOr   `parser:"  ',' @@ ( ',' @@ )+"`
		Along  *gExpr   `parser:"| 'along' @@"`
		At     []*gExpr `parser:"  ( 'at' @@ ( ',' @@ )* )?"`
		Only   []*gExpr `parser:"| 'at' @@ ( ',' @@ )* )?"` // a point, no line
	}
	gPlace struct {
		Unit    *gName     `parser:"'place' @@"`
		Args    *gArgs     `parser:"@@?"`
		Clauses []*gClause `parser:"@@*"`
	}
	gClause struct {
		As       *gName `parser:"  'as' @@"`
		By       *gExpr `parser:"| 'by' @@"`
		At       *gExpr `parser:"| 'at' @@"`
		Turn     *gExpr `parser:"| 'turn' @@"`
		Reversed bool   `parser:"| @'reversed'"`
	}
	gLine struct {
		Chains  []*gChain `parser:"'line' @@ ( ',' @@ )*"`
		Partial bool      `parser:"@'partial'?"`
	}
	gChain struct {
		Points []*gOr `parser:"@@ ( '--' @@ )+"`
	}
	gCheck struct {
		Cond    *gExpr `parser:"'check' @@"`
		Message string `parser:"@String"`
	}
)

type (
	gExpr struct {
		If   *gExpr `parser:"  'if' @@"`
		Then *gExpr `parser:"  'then' @@"`
		Else *gExpr `parser:"  'else' @@"`
		From *gOr   `parser:"| @@"`
		To   *gOr   `parser:"  ( '--' @@ )?"`
	}
	gOr struct {
		Terms []*gAnd `parser:"@@ ( 'or' @@ )*"`
	}
	gAnd struct {
		Terms []*gNot `parser:"@@ ( 'and' @@ )*"`
	}
	gNot struct {
		Not     *gNot     `parser:"  'not' @@"`
		Compare *gCompare `parser:"| @@"`
	}
	gCompare struct {
		Left  *gSum  `parser:"@@"`
		Op    string `parser:"( @( '==' | '!=' | '<' | '<=' | '>' | '>=' )"`
		Right *gSum  `parser:"  @@ )?"`
	}
	gSum struct {
		First *gProduct  `parser:"@@"`
		Rest  []*gAddend `parser:"@@*"`
	}
	gAddend struct {
		Op   string    `parser:"@( '+' | '-' )"`
		Term *gProduct `parser:"@@"`
	}
	gProduct struct {
		First *gUnary    `parser:"@@"`
		Rest  []*gFactor `parser:"@@*"`
	}
	gFactor struct {
		Op   string  `parser:"@( '*' | '/' )"`
		Term *gUnary `parser:"@@"`
	}
	gUnary struct {
		Minus   *gUnary   `parser:"  '-' @@"`
		Postfix *gPostfix `parser:"| @@"`
	}
	gPostfix struct {
		Value  *gPrimary `parser:"@@"`
		Fields []*gName  `parser:"( '.' @@ )*"`
	}
	gPrimary struct {
		Number string      `parser:"  @Number"`
		Text   string      `parser:"| @String"`
		Bool   string      `parser:"| @( 'true' | 'false' )"`
		Name   *gNameUse   `parser:"| @@"`
		Paren  *gEnclosure `parser:"| @@"`
	}
	gNameUse struct {
		Name *gName     `parser:"@@"`
		Args *gCallArgs `parser:"@@?"`
	}
	gCallArgs struct {
		Open bool    `parser:"@Call"`
		Args []*gArg `parser:"( @@ ( ',' @@ )* )? ')'"`
	}
	gArgs struct {
		Open bool    `parser:"@'('"`
		Args []*gArg `parser:"( @@ ( ',' @@ )* )? ')'"`
	}
	gArg struct {
		Name  *gName `parser:"( @@ ':' )?"`
		Value *gExpr `parser:"@@"`
	}
	gEnclosure struct {
		X *gExpr `parser:"'(' @@"`
		Y *gExpr `parser:"( ',' @@ )? ')'"`
	}
	gPoint struct {
		X *gExpr `parser:"'(' @@ ','"`
		Y *gExpr `parser:"@@ ')'"`
	}
	gCorner struct { // begins as no fabric goes on, and no statement
		Point  *gPoint    `parser:"( @@"`
		Name   *gNameUse  `parser:"| @@ )"`
		Fields []*gName   `parser:"( '.' @@ )*"`
		Times  []*gFactor `parser:"@@*"`
		Plus   []*gAddend `parser:"@@*"`
	}
)
