//go:build !linux

package ledger

import "os"

func openPlain(file string) (*os.File, error) { return os.Open(file) }
