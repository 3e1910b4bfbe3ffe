package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/emit/edition"
	"seamwright/lang/problem"
)

// mostEditions bounds the file of editions that is read: that of a block of ten
// thousand pieces at six sizes is about a third of it.
const mostEditions = 64 << 20

// editionsOf names the file beside a pattern that its editions are kept in.
func editionsOf(name string) string {
	return strings.TrimSuffix(name, files.Extension) + edition.Suffix
}

// readEditions reads what has been released of a pattern: nil where nothing was.
func readEditions(name string) (*edition.Editions, *problem.Problem) {
	if name == files.Stdin {
		return nil, nil
	}
	name = editionsOf(name)
	f, err := os.Open(name)
	if os.IsNotExist(err) {
		return nil, nil
	}
	if err != nil {
		return nil, unreadableEditions(name, err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostEditions+1))
	if err == nil && len(data) > mostEditions {
		err = fmt.Errorf("it is larger than %d MB", mostEditions>>20)
	}
	if err != nil {
		return nil, unreadableEditions(name, err)
	}
	return parseEditions(name, data)
}

func parseEditions(name string, data []byte) (*edition.Editions, *problem.Problem) {
	e, err := edition.Read(data)
	if err != nil {
		return nil, unreadableEditions(name, err)
	}
	return e, nil
}

func unreadableEditions(name string, err error) *problem.Problem {
	return &problem.Problem{
		Code: edition.Unreadable, Severity: problem.Error, At: problem.Place{Source: &problem.Source{Name: name}},
		Message: fmt.Sprintf("the record of what was released can't be read: %v", err),
		Help:    "bring back the file as `release` wrote it, from git or from a copy; it is not written by hand",
	}
}
