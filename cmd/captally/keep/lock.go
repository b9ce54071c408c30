package keep

import (
	"errors"
	"fmt"
	"path/filepath"
	"time"
)

// patience is how long a change waits for another program's, which takes some milliseconds.
const patience = 10 * time.Second

var errTaken = errors.New("taken")

// locked runs f while no other program that asks does. The lock is the system's own and goes with the program that holds it, so that
// none is left behind by one that was killed.
func locked(path string, f func() error) error {
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	}
	for waited := time.Duration(0); ; waited += 5 * time.Millisecond {
		release, err := take(path)
		if err == nil {
			defer release()
			return f()
		}
		if !errors.Is(err, errTaken) {
			return err
		}
		if waited > patience {
			return fmt.Errorf("%s: another program has been changing it for %v", path, patience)
		}
		time.Sleep(5 * time.Millisecond)
	}
}
