//go:build unix && !solaris && !aix

package keep

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
)

// take locks the folder of a file, which leaves no lock file behind. Where the file system knows no such locks (some shared ones),
// there is none: a change is whole even so.
func take(path string) (release func(), err error) {
	d, err := os.Open(filepath.Dir(path))
	if err != nil {
		return nil, err
	}
	switch err := syscall.Flock(int(d.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); {
	case errors.Is(err, syscall.EWOULDBLOCK), errors.Is(err, syscall.EINTR):
		_ = d.Close()
		return nil, errTaken
	default:
		return func() { _ = d.Close() }, nil
	}
}
