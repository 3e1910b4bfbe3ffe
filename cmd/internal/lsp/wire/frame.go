package wire

import (
	"bufio"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"strings"
)

// MaxMessage is the longest message that is kept, in bytes. A text of 1 MiB, the
// most that is a pattern, is at most six times as long when every character of it
// is escaped.
const MaxMessage = 16 << 20

// maxHeader bounds a line of a header, so that a stream without line ends is not
// kept.
const maxHeader = 4096

// ErrFrame is a message that has no usable length, or is too long. It has been
// passed over.
var ErrFrame = errors.New("a message begins with Content-Length, and is at most 16 MiB long")

// A Reader reads messages.
type Reader struct{ in *bufio.Reader }

// NewReader returns a Reader of a stream.
func NewReader(in io.Reader) *Reader { return &Reader{bufio.NewReaderSize(in, maxHeader)} }

// Read returns the body of the next message. Its error is [ErrFrame], after which
// reading may go on, or that of the stream.
func (r *Reader) Read() ([]byte, error) {
	length, found := 0, false
	for first := true; ; first = false {
		line, err := r.in.ReadSlice('\n')
		if errors.Is(err, bufio.ErrBufferFull) {
			continue // no header of ours
		}
		if err != nil {
			return nil, err
		}
		text := strings.TrimRight(string(line), "\r\n")
		if text == "" {
			if first {
				continue // between messages
			}
			break
		}
		name, value, _ := strings.Cut(text, ":")
		if strings.EqualFold(strings.TrimSpace(name), "Content-Length") {
			n, err := strconv.Atoi(strings.TrimSpace(value))
			length, found = n, err == nil && n >= 0
		}
	}
	if !found {
		return nil, ErrFrame
	}
	if length > MaxMessage {
		if _, err := io.CopyN(io.Discard, r.in, int64(length)); err != nil {
			return nil, err
		}
		return nil, ErrFrame
	}
	body := make([]byte, length)
	_, err := io.ReadFull(r.in, body)
	return body, err
}

// Write writes one message.
func Write(out io.Writer, message any) error {
	body, err := json.Marshal(message)
	if err != nil {
		return err
	}
	frame := append(strconv.AppendInt([]byte("Content-Length: "), int64(len(body)), 10), "\r\n\r\n"...)
	_, err = out.Write(append(frame, body...)) // in one piece: a reader may look at each write
	return err
}
