package lang

// Grammar prints the EBNF of the reference.
func Grammar() string { panic("being written") }
