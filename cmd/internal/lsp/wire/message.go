package wire

import "encoding/json"

// A Message is what comes in: a request if it has an ID and a method, else a
// notification, or the answer to a request of ours.
type Message struct {
	ID     json.RawMessage `json:"id,omitempty"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params,omitempty"`
}

// An Answer goes out for a request. Its Result is "null" where there is none.
type Answer struct {
	Version string          `json:"jsonrpc"`
	ID      json.RawMessage `json:"id"`
	Result  any             `json:"result"`
}

// A Refusal goes out for a request that can't be answered.
type Refusal struct {
	Version string          `json:"jsonrpc"`
	ID      json.RawMessage `json:"id"`
	Error   Error           `json:"error"`
}

// An Outgoing is a notification of ours, or a request if it has an ID.
type Outgoing struct {
	Version string `json:"jsonrpc"`
	ID      string `json:"id,omitempty"`
	Method  string `json:"method"`
	Params  any    `json:"params,omitempty"`
}

// Version of JSON-RPC.
const Version = "2.0"

// An Error says why there is no answer.
type Error struct {
	Code    int    `json:"code"`
	Message string `json:"message"`
}

func (e *Error) Error() string { return e.Message }

// Codes of errors, as JSON-RPC and the protocol number them.
const (
	ParseError     = -32700
	InvalidRequest = -32600
	MethodNotFound = -32601
	InvalidParams  = -32602
	InternalError  = -32603
	NotInitialized = -32002
	RequestFailed  = -32803
)
