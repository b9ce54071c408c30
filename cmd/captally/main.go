// Command captally reads the caption file of a recorded exercise session and says what was done in it.
package main

import "os"

func main() {
	os.Exit(run(os.Args, os.Stdin, os.Stdout, os.Stderr))
}
