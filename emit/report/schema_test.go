package report

// The document of SCHEMA.md as Go types, for encoding/json to read.

type point [2]float64

type document struct {
	Schema      string      `json:"schema"`
	Title       string      `json:"title"`
	File        string      `json:"file"`
	Edition     int         `json:"edition"`
	Author      string      `json:"author"`
	Year        string      `json:"year"`
	Rights      string      `json:"rights"`
	Contact     string      `json:"contact"`
	Corrections string      `json:"corrections"`
	Notes       []string    `json:"notes"`
	Pictures    []picture   `json:"pictures"`
	Settings    settings    `json:"settings"`
	Fabrics     []fabric    `json:"fabrics"`
	Colorways   []colorway  `json:"colorways"`
	Blocks      []blockJSON `json:"blocks"`
	Quilts      []quiltJSON `json:"quilts"`
	Accepted    []accepted  `json:"accepted"`
	Limits      []limit     `json:"limits"`
}

type quiltJSON struct {
	Title   string `json:"title"`
	Size    point  `json:"size"`
	Backing point  `json:"backing"`
	Batting point  `json:"batting"`
	Placed  []struct {
		Block    string  `json:"block"`
		Finished point   `json:"finished"`
		Reversed bool    `json:"reversed"`
		Turn     float64 `json:"turn"`
		Shift    point   `json:"shift"`
		Row      int     `json:"row"`
		Place    int     `json:"place"`
		OtherWay bool    `json:"other_way"`
	} `json:"placed"`
	Rows []struct {
		Sashing bool  `json:"sashing"`
		Parts   []int `json:"parts"`
	} `json:"rows"`
	Joins []struct {
		Step  string  `json:"step"`
		Of    int     `json:"step_of"`
		From  point   `json:"from"`
		To    point   `json:"to"`
		Left  []int   `json:"left"`
		Right []int   `json:"right"`
		Match []point `json:"match"`
		Ends  []struct {
			At     point  `json:"at"`
			OnLeft bool   `json:"on_left"`
			SeamOf string `json:"seam_of"`
		} `json:"ends"`
		Press       string `json:"press"`
		PressReason string `json:"press_reason"`
		MostMeeting int    `json:"most_meeting"`
	} `json:"joins"`
	TwoWays []struct {
		Block      string `json:"block"`
		Finished   point  `json:"finished"`
		PressOther []int  `json:"press_other"`
	} `json:"two_ways"`
	Untried bool `json:"pressing_untried"`
	Areas   []struct {
		For     string  `json:"for"`
		Fabric  string  `json:"fabric"`
		Polygon []point `json:"polygon"`
	} `json:"areas"`
	Cutting []struct {
		For     string `json:"for"`
		Fabric  string `json:"fabric"`
		Shape   string `json:"shape"`
		Size    point  `json:"size"`
		Patches int    `json:"patches"`
	} `json:"cutting"`
	Strips []struct {
		For     string    `json:"for"`
		Fabric  string    `json:"fabric"`
		Width   float64   `json:"width"`
		Bias    bool      `json:"bias"`
		Lengths []float64 `json:"lengths"`
	} `json:"strips"`
	Cloth []struct {
		Colorway string `json:"colorway"`
		Words    string `json:"words"`
		boughtJSON
	} `json:"cloth"`
}

type boughtJSON struct {
	Taken      float64 `json:"taken"`
	Buy        float64 `json:"buy"`
	StripsTake float64 `json:"strips_take"`
	Least      float64 `json:"least"`
	LeftOver   float64 `json:"left_over"`
}

type picture struct {
	File  string `json:"file"`
	Words string `json:"words"`
}

type settings struct {
	Allowance float64 `json:"allowance"`
	Extra     float64 `json:"extra"`
	Ease      float64 `json:"ease"`
	Metric    bool    `json:"metric"`
	Miniature bool    `json:"miniature"`
	Sheet     struct {
		Name   string  `json:"name"`
		Size   point   `json:"size"`
		Margin float64 `json:"margin"`
	} `json:"sheet"`
}

type fabric struct {
	Name    string `json:"name"`
	Words   string `json:"words"`
	Value   string `json:"value"`
	Color   string `json:"color"`
	Scrappy string `json:"scrappy"`
}

type colorway struct {
	Name   string  `json:"name"`
	Words  string  `json:"words"`
	Cloths []cloth `json:"cloths"`
}

type cloth struct {
	Words string `json:"words"`
	Value string `json:"value"`
	Color string `json:"color"`
}

type accepted struct {
	Code    string `json:"code"`
	Message string `json:"message"`
	Reason  string `json:"reason"`
	File    string `json:"file"`
	Line    int    `json:"line"`
}

type limit struct {
	Name  string  `json:"name"`
	Code  string  `json:"code"`
	Unit  string  `json:"unit"`
	Limit float64 `json:"limit"`
	Set   bool    `json:"set"`
}

type blockJSON struct {
	Name  string      `json:"name"`
	Title string      `json:"title"`
	Grid  point       `json:"grid"`
	Of    string      `json:"reversed_of"`
	Sizes []sizedJSON `json:"sizes"`
}

type padJSON struct {
	Blocks   int  `json:"blocks"`
	Each     int  `json:"each"`
	Spare    int  `json:"spare"`
	Total    int  `json:"total"`
	Collated bool `json:"collated"`
}

type sizedJSON struct {
	Finished   point         `json:"finished"`
	Unfinished point         `json:"unfinished"`
	Outline    []point       `json:"outline"`
	Sections   []sectionJSON `json:"sections"`
	Copies     []copyJSON    `json:"copies"`
	Joins      []joinJSON    `json:"joins"`
	Cutting    []cutRow      `json:"cutting"`
	Cloth      []struct {
		Fabric string `json:"fabric"`
		boughtJSON
		Scrap point `json:"scrap"`
	} `json:"cloth"`
	Sheets []sheetJSON `json:"sheets"`
	Pads   []padJSON   `json:"pads"`
	Checks checksJSON  `json:"checks"`
}

type sectionJSON struct {
	Name string `json:"name"`
	sourceJSON
	Unit       string        `json:"unit"`
	Make       int           `json:"make"`
	ReversedOf string        `json:"reversed_of"`
	Plain      bool          `json:"plain"`
	Outline    []point       `json:"outline"`
	Edges      []edgeJSON    `json:"edges"`
	Printed    []printedJSON `json:"printed"`
	Pieces     []pieceJSON   `json:"pieces"`
}

type printedJSON struct {
	Sheet int     `json:"sheet"`
	Turn  float64 `json:"turn"`
	Shift point   `json:"shift"`
	Part  *struct {
		Number int     `json:"number"`
		Parts  int     `json:"parts"`
		Row    int     `json:"row"`
		Column int     `json:"column"`
		Own    []point `json:"own"`
	} `json:"part,omitempty"`
}

type edgeJSON struct {
	Kind     string `json:"kind"`
	Letter   string `json:"letter"`
	Partners []struct {
		Section string `json:"section"`
		Edge    int    `json:"edge"`
		Letter  string `json:"letter"`
	} `json:"partners"`
	Marks []struct {
		At     point  `json:"at"`
		Kind   string `json:"kind"`
		Match  bool   `json:"match"`
		Letter string `json:"letter"`
	} `json:"marks"`
}

type pieceJSON struct {
	Space  string `json:"space"`
	Number int    `json:"number"`
	sourceJSON
	Fabric  string  `json:"fabric"`
	Polygon []point `json:"polygon"`
	Seam    []point `json:"seam,omitempty"`
	Cut     struct {
		Shape     string  `json:"shape"`
		Size      point   `json:"size"`
		Need      point   `json:"need"`
		Margin    float64 `json:"margin"`
		Exact     bool    `json:"exact"`
		AlongSeam bool    `json:"along_seam"`
		Reversed  bool    `json:"reversed"`
	} `json:"cut"`
}

type sourceJSON struct {
	Line int    `json:"line"`
	File string `json:"file,omitempty"`
}

type copyJSON struct {
	Section string  `json:"section"`
	Turn    float64 `json:"turn"`
	Shift   point   `json:"shift"`
	Of      string  `json:"of"`
	sourceJSON
	Pieces []sourceJSON `json:"pieces,omitempty"`
}

type joinJSON struct {
	Number int `json:"number"`
	sourceJSON
	From  point   `json:"from"`
	To    point   `json:"to"`
	Left  []int   `json:"left"`
	Right []int   `json:"right"`
	Match []point `json:"match"`

	Press       string `json:"press"`
	PressReason string `json:"press_reason"`
	MostMeeting int    `json:"most_meeting"`
	Begins      int    `json:"begins,omitempty"`
	Begun       int    `json:"begun,omitempty"`
}

type cutRow struct {
	Fabric          string   `json:"fabric"`
	Shape           string   `json:"shape"`
	Size            point    `json:"size"`
	Exact           bool     `json:"exact"`
	Count           int      `json:"count"`
	CountReversed   int      `json:"count_reversed"`
	Patches         int      `json:"patches"`
	PatchesReversed int      `json:"patches_reversed"`
	Spaces          []string `json:"spaces"`
}

type sheetJSON struct {
	Number int    `json:"number"`
	File   string `json:"file"`
	Copies int    `json:"copies"`
}

type checksJSON struct {
	Sections         int     `json:"sections"`
	Pieces           int     `json:"pieces"`
	Seams            int     `json:"seams"`
	Drawings         int     `json:"drawings"`
	PlainDrawings    int     `json:"plain_drawings"`
	Points           int     `json:"points_to_match"`
	MostSeams        int     `json:"most_seams_at_a_point"`
	MostLayers       int     `json:"most_layers_at_a_point"`
	Narrowest        float64 `json:"narrowest"`
	NarrowestPiece   string  `json:"narrowest_piece"`
	NearestPoints    float64 `json:"nearest_points"`
	AreaError        float64 `json:"area_error"`
	LeastMargin      float64 `json:"least_margin"`
	LeastMarginPiece string  `json:"least_margin_piece"`
}
