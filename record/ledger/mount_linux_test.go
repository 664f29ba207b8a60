package ledger

import "syscall"

// mountSmall mounts a file system of 256 KiB in memory.
func mountSmall(dir string) error {
	return syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=256k")
}

func unmount(dir string) error { return syscall.Unmount(dir, 0) }
