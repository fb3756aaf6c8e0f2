//go:build unix

package store

import (
	"io/fs"
	"os"
	"syscall"
)

// modesCount says that a file's mode tells who may read it.
const modesCount = true

// isMine reports whether the file belongs to the user that this process runs as.
func isMine(info fs.FileInfo) bool {
	stat, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(stat.Uid) == os.Geteuid()
}
