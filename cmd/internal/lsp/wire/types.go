package wire

import "encoding/json"

// The structures below are named, and their fields filled, as in the language
// server protocol 3.17.

type (
	// A Position is a place between characters; both numbers count from 0.
	Position struct {
		Line      int `json:"line"`
		Character int `json:"character"`
	}
	Range struct {
		Start Position `json:"start"`
		End   Position `json:"end"`
	}
	Location struct {
		URI   string `json:"uri"`
		Range Range  `json:"range"`
	}
	TextEdit struct {
		Range   Range  `json:"range"`
		NewText string `json:"newText"`
	}
	WorkspaceEdit struct {
		Changes map[string][]TextEdit `json:"changes"`
	}
)

// What comes in.
type (
	Initialize struct {
		RootURI      string `json:"rootUri"`
		Capabilities struct {
			General struct {
				PositionEncodings []string `json:"positionEncodings"`
			} `json:"general"`
			Workspace struct {
				DidChangeWatchedFiles struct {
					DynamicRegistration bool `json:"dynamicRegistration"`
				} `json:"didChangeWatchedFiles"`
				InlayHint struct {
					RefreshSupport bool `json:"refreshSupport"`
				} `json:"inlayHint"`
			} `json:"workspace"`
			TextDocument struct {
				Completion struct {
					CompletionItem struct {
						SnippetSupport bool `json:"snippetSupport"`
					} `json:"completionItem"`
				} `json:"completion"`
				DocumentSymbol struct {
					HierarchicalDocumentSymbolSupport bool `json:"hierarchicalDocumentSymbolSupport"`
				} `json:"documentSymbol"`
			} `json:"textDocument"`
		} `json:"capabilities"`
		InitializationOptions json.RawMessage `json:"initializationOptions"`
	}
	// Settings are ours: the finished size that facts are told for, "8in".
	Settings struct {
		Size string `json:"size"`
	}
	DidChangeConfiguration struct {
		Settings json.RawMessage `json:"settings"`
	}
	Document struct {
		URI     string `json:"uri"`
		Version int32  `json:"version"`
		Text    string `json:"text"`
	}
	DidOpen struct {
		TextDocument Document `json:"textDocument"`
	}
	DidChange struct {
		TextDocument   Document `json:"textDocument"`
		ContentChanges []struct {
			Range *Range `json:"range"`
			Text  string `json:"text"`
		} `json:"contentChanges"`
	}
	// At is what most requests ask about.
	At struct {
		TextDocument Document `json:"textDocument"`
		Position     Position `json:"position"`
		Range        Range    `json:"range"`
		NewName      string   `json:"newName"`
		Context      struct {
			IncludeDeclaration bool     `json:"includeDeclaration"`
			Only               []string `json:"only"`
		} `json:"context"`
	}
)

// What goes out.
type (
	Diagnostic struct {
		Range              Range     `json:"range"`
		Severity           int       `json:"severity"`
		Code               string    `json:"code"`
		Source             string    `json:"source"`
		Message            string    `json:"message"`
		Tags               []int     `json:"tags,omitempty"`
		RelatedInformation []Related `json:"relatedInformation,omitempty"`
	}
	Related struct {
		Location Location `json:"location"`
		Message  string   `json:"message"`
	}
	PublishDiagnostics struct {
		URI         string       `json:"uri"`
		Version     *int32       `json:"version,omitempty"`
		Diagnostics []Diagnostic `json:"diagnostics"`
	}
	DocumentSymbol struct {
		Name           string           `json:"name"`
		Detail         string           `json:"detail,omitempty"`
		Kind           int              `json:"kind"`
		Range          Range            `json:"range"`
		SelectionRange Range            `json:"selectionRange"`
		Children       []DocumentSymbol `json:"children,omitempty"`
	}
	SymbolInformation struct {
		Name     string   `json:"name"`
		Kind     int      `json:"kind"`
		Location Location `json:"location"`
	}
	FoldingRange struct {
		StartLine int    `json:"startLine"`
		EndLine   int    `json:"endLine"`
		Kind      string `json:"kind,omitempty"`
	}
	Markup struct {
		Kind  string `json:"kind"`
		Value string `json:"value"`
	}
	Hover struct {
		Contents Markup `json:"contents"`
		Range    *Range `json:"range,omitempty"`
	}
	CompletionItem struct {
		Label               string     `json:"label"`
		Kind                int        `json:"kind"`
		Detail              string     `json:"detail,omitempty"`
		Documentation       *Markup    `json:"documentation,omitempty"`
		SortText            string     `json:"sortText,omitempty"`
		InsertTextFormat    int        `json:"insertTextFormat,omitempty"`
		TextEdit            *TextEdit  `json:"textEdit,omitempty"`
		AdditionalTextEdits []TextEdit `json:"additionalTextEdits,omitempty"`
	}
	CompletionList struct {
		IsIncomplete bool             `json:"isIncomplete"`
		Items        []CompletionItem `json:"items"`
	}
	DocumentHighlight struct {
		Range Range `json:"range"`
		Kind  int   `json:"kind"`
	}
	PrepareRename struct {
		Range       Range  `json:"range"`
		Placeholder string `json:"placeholder"`
	}
	SemanticTokens struct {
		Data []uint32 `json:"data"`
	}
	InlayHint struct {
		Position    Position `json:"position"`
		Label       string   `json:"label"`
		Tooltip     string   `json:"tooltip,omitempty"`
		PaddingLeft bool     `json:"paddingLeft,omitempty"`
	}
	CodeAction struct {
		Title       string         `json:"title"`
		Kind        string         `json:"kind"`
		Diagnostics []Diagnostic   `json:"diagnostics,omitempty"`
		IsPreferred bool           `json:"isPreferred,omitempty"`
		Edit        *WorkspaceEdit `json:"edit"`
	}
	SignatureHelp struct {
		Signatures      []SignatureInformation `json:"signatures"`
		ActiveSignature int                    `json:"activeSignature"`
		ActiveParameter int                    `json:"activeParameter"`
	}
	SignatureInformation struct {
		Label         string      `json:"label"`
		Documentation string      `json:"documentation,omitempty"`
		Parameters    []Parameter `json:"parameters"`
	}
	Parameter struct {
		Label string `json:"label"`
	}
	ShowMessage struct {
		Type    int    `json:"type"`
		Message string `json:"message"`
	}
)

// Kinds of symbols, of what is completed, and severities, as the protocol
// numbers them.
const (
	SymbolNamespace = 3
	SymbolClass     = 5
	SymbolVariable  = 13
	SymbolConstant  = 14
	SymbolProperty  = 7
	SymbolObject    = 19

	ItemFunction   = 3
	ItemVariable   = 6
	ItemClass      = 7
	ItemProperty   = 10
	ItemValue      = 12
	ItemKeyword    = 14
	ItemSnippet    = 15
	ItemColor      = 16
	ItemFile       = 17
	ItemEnumMember = 20
	ItemConstant   = 21

	FormatPlain, FormatSnippet = 1, 2

	SeverityError, SeverityWarning, SeverityInformation = 1, 2, 3

	TagUnnecessary = 1

	HighlightText, HighlightWrite = 1, 3

	MessageError, MessageInfo = 1, 3
)
