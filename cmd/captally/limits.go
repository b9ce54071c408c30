package main

import "github.com/urfave/cli/v2"

// limits are the size of the largest file that is read, in bytes, and the most cues or blocks in it. The captions of an hour have
// some 0.3 MB and 1,000 cues, a recogniser's JSON of an hour some 5 MB.
type limits struct {
	bytes int64
	cues  int
}

const (
	usualMegabytes = 64
	usualCues      = 200_000
	mostMegabytes  = 1024
)

func usualLimits() limits { return limits{usualMegabytes << 20, usualCues} }

func limitFlags() []cli.Flag {
	return []cli.Flag{
		&cli.IntFlag{Name: "max-size", Usage: "read files of up to `MB` megabytes", Value: usualMegabytes},
		&cli.IntFlag{Name: "max-cues", Usage: "read up to `N` cues a file", Value: usualCues},
	}
}

// limitsOf returns what the flags of a command allow.
func limitsOf(c *cli.Context) (limits, error) {
	size, cues := c.Int("max-size"), c.Int("max-cues")
	switch {
	case size < 1 || size > mostMegabytes:
		return limits{}, misuse("", "--max-size is from 1 to %d, not %d", mostMegabytes, size)
	case cues < 1:
		return limits{}, misuse("", "--max-cues is at least 1, not %d", cues)
	}
	return limits{int64(size) << 20, cues}, nil
}

func (l limits) tooLarge(name string) error {
	return unreadable("is it the video itself? Give the caption file that belongs to it, or raise the limit with --max-size",
		"%s: larger than %d MB, which no caption file of one session is", name, l.bytes>>20)
}
