package keep

import (
	"errors"
	"path/filepath"
	"syscall"
)

// What syscall does not name: a file that goes when it is closed, and the error of one that another program has open. (Windows
// headers winbase.h and winerror.h; from memory.)
const (
	deleteOnClose    = 0x04000000
	sharingViolation = syscall.Errno(32)
)

// take opens a file beside path that cannot be shared and goes when it is closed, by whatever end of the program.
func take(path string) (release func(), err error) {
	name, err := syscall.UTF16PtrFromString(filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".lock"))
	if err != nil {
		return nil, err
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, 0, nil, syscall.OPEN_ALWAYS, deleteOnClose, 0)
	switch {
	case errors.Is(err, sharingViolation), errors.Is(err, syscall.ERROR_ACCESS_DENIED): // the latter while it goes
		return nil, errTaken
	case err != nil:
		return nil, err
	}
	return func() { _ = syscall.CloseHandle(h) }, nil
}
