package ledger

import (
	"errors"
	"os"
	"syscall"
)

// openPlain opens a plain file to be read. Go asks the kernel about each file that it
// opens whether it may be waited for, and puts it into another mode for that, which is
// five calls of nine; one that is opened in that mode is spared four of them. Reading a
// plain file is the same in either. Only one on which another program has a lease, as a
// file server may, is not opened so (fcntl(2), "Leases"): that is waited for.
func openPlain(file string) (*os.File, error) {
	f, err := os.OpenFile(file, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if errors.Is(err, syscall.EAGAIN) {
		return os.Open(file)
	}
	return f, err
}
