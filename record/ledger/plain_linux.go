package ledger

import (
	"os"
	"syscall"
)

// openPlain opens a plain file to be read. Go asks the kernel about each file that it
// opens whether it may be waited for, and puts it into another mode for that, which is
// five calls of nine; one that is opened in that mode is spared four of them. Reading a
// plain file is the same in either.
const openPlain = os.O_RDONLY | syscall.O_NONBLOCK
