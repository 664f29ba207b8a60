//go:build unix && !linux

package ledger

import "errors"

func mountSmall(string) error { return errors.ErrUnsupported }

func unmount(string) error { return nil }
