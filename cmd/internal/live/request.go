package live

import (
	"bytes"
	"io"
	"strings"
	"time"
)

// A conn is a connection.
type conn interface {
	io.ReadWriteCloser
	SetReadDeadline(time.Time) error
	SetWriteDeadline(time.Time) error
}

const (
	// mostHead is the largest head of a request. Browsers send about 1 KB.
	mostHead = 8 << 10
	// readIn is how long a head may take to come in, writeIn how long one
	// writing may take: a program that stalls must not hold a connection.
	readIn, writeIn = 5 * time.Second, 10 * time.Second
)

// A request is the head of a request of HTTP/1.1 (RFC 9112). A body is not read.
type request struct {
	method, path string            // the path without its query
	fields       map[string]string // by lower-case name
}

// read reads a request; nil if it is none.
func read(c conn) *request {
	c.SetReadDeadline(time.Now().Add(readIn))
	head, buffer := []byte(nil), make([]byte, 2048)
	for {
		n, err := c.Read(buffer)
		head = append(head, buffer[:n]...)
		if end := bytes.Index(head, []byte("\r\n\r\n")); end >= 0 && end <= mostHead {
			return parse(string(head[:end]))
		}
		if err != nil || len(head) > mostHead {
			return nil
		}
	}
}

// parse reads a head without its empty line. It takes only what browsers send:
// no folded lines, no field twice, no blank before a colon.
func parse(head string) *request {
	lines := strings.Split(head, "\r\n")
	words := strings.Split(lines[0], " ")
	if len(words) != 3 || words[2] != "HTTP/1.1" && words[2] != "HTTP/1.0" {
		return nil
	}
	path, _, _ := strings.Cut(words[1], "?")
	r := &request{method: words[0], path: path, fields: map[string]string{}}
	for _, line := range lines[1:] {
		name, value, ok := strings.Cut(line, ":")
		name = strings.ToLower(name)
		if _, twice := r.fields[name]; !ok || twice || strings.ContainsAny(name, " \t") {
			return nil
		}
		r.fields[name] = strings.Trim(value, " \t")
	}
	return r
}

// own reports whether a request comes from the page itself or from the person's
// address bar. A page of another site can make a browser send requests here, and
// can give this address a name of its own; both show in these fields.
func (r *request) own(hosts []string) bool {
	host := r.fields["host"]
	known := false
	for _, h := range hosts {
		known = known || h == host
	}
	if !known {
		return false
	}
	if origin, ok := r.fields["origin"]; ok && origin != "http://"+host {
		return false
	}
	switch r.fields["sec-fetch-site"] {
	case "", "none", "same-origin":
		return true
	}
	return false
}
