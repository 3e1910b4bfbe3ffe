package lang

// Limits. They are far beyond any pattern and keep time and memory small for
// texts that are none.
const (
	// maxText is the size of a text in bytes. A pattern of 10,000 written
	// pieces has half of it.
	maxText = 1 << 20
	// maxTokens is how many words and signs a text may hold; each takes a hundred
	// bytes of memory, and a piece written out has fifteen.
	maxTokens = 1 << 18
	// maxDepth is how deep braces, parentheses and operators may be nested. The
	// stages behind the parser walk the tree by recursion.
	maxDepth = 200
	// maxProblems is how many problems are told in one run; a person mends a
	// few and runs again.
	maxProblems = 100
	// maxLookAhead is how many tokens are searched for the `then` of an if that
	// begins a line within a value.
	maxLookAhead = 200
	// maxTakenOver is how many settings are read again where one lacks its value;
	// more are never written in one pair of braces.
	maxTakenOver = 20
	// maxDigits and maxFractionDigits keep a number exact: the whole part with
	// its decimals, times a denominator, fits 63 bits.
	maxDigits         = 12
	maxFractionDigits = 6
)
