package lang

import "seamwright/lang/problem"

// Parse reads a file. The tree is never nil; where problems holds an error the
// tree has holes. Offsets in the tree are bytes of src.Text.
func Parse(src *problem.Source) (*File, []problem.Problem) { panic("being written") }

// Format returns the file in canonical layout, idempotent, with every comment
// kept. It must not be called on a file with syntax errors.
func Format(f *File) string { panic("being written") }
