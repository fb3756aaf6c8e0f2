//go:build linux || darwin || freebsd

package store

import "syscall"

func freeBytes(dir string) (uint64, bool) {
	var fs syscall.Statfs_t
	if err := syscall.Statfs(dir, &fs); err != nil {
		return 0, false
	}
	return uint64(fs.Bavail) * uint64(fs.Bsize), true
}
