package lang

// Format returns the file in canonical layout, idempotent, with every comment
// kept. It must not be called on a file with syntax errors.
func Format(f *File) string { panic("being written") }
