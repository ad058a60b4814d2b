package syntax

// Bounds on what is read, so that no file can exhaust the machine. A builder's
// worksheet stays far below each of them. A chain a + a + … nests nothing for
// the reader but is a deep tree: MaxStatement bounds it.
const (
	MaxNesting    = 100       // brackets, signs, powers and branches inside one another
	MaxStatement  = 64 * 1024 // bytes of one statement with its continuations
	MaxStatements = 100_000   // statements of one file
	MaxNumber     = 64        // bytes of one number's digits
)
