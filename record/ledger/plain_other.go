//go:build !linux

package ledger

import "os"

const openPlain = os.O_RDONLY
