package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"captally.example/captally/notes"
	"github.com/urfave/cli/v2"
)

func profileCommand() *cli.Command {
	return &cli.Command{
		Name:  "profile",
		Usage: "print a profile to fill in: your clinic, cautions and own words",
		Description: `Prints a profile with every key in a comment. Saved as captally.toml beside the
captions, or in your configuration folder, it is used by notes.

Example: captally profile --out captally.toml`,
		Flags: []cli.Flag{outFlag()},
		Action: func(c *cli.Context) error {
			if err := noFile(c); err != nil {
				return err
			}
			if path := c.String("out"); path != "" {
				if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() {
					return misuse("choose another name, or take the old one away first", "%s exists, and may hold your profile", path)
				}
			}
			out, err := newOutput(c)
			if err != nil {
				return err
			}
			_, _ = out.Write(notes.ProfileExample())
			return out.close()
		},
	}
}

func profileFlag() cli.Flag {
	return &cli.StringFlag{Name: "profile", Usage: "take your clinic, cautions and own words from `FILE` (TOML)"}
}

// readProfile reads the profile that was named, or else the one beside the captions, or else the one in the user's
// configuration folder. One that was not named is told on standard error. Without any, notes have gaps in its place.
func readProfile(c *cli.Context, captions string) (notes.Profile, error) {
	name := c.String("profile")
	if !c.IsSet("profile") {
		if name = findProfile(captions); name == "" {
			return notes.Profile{}, nil
		}
		fmt.Fprintf(c.App.ErrWriter, "captally: profile: %s\n", plain(name))
	}
	data, err := readBytes(name, c.App.Reader, usualLimits())
	if err != nil {
		return notes.Profile{}, err
	}
	return notes.ReadProfile(name, data)
}

// findProfile returns the place of a profile that was not named, "" for none.
func findProfile(captions string) string {
	var places []string
	if captions != standardInput {
		places = append(places, filepath.Join(filepath.Dir(captions), notes.ProfileName))
	}
	if folder, err := os.UserConfigDir(); err == nil {
		places = append(places, filepath.Join(folder, "captally", notes.ProfileName))
	}
	for _, place := range places {
		if _, err := os.Stat(place); err == nil || errors.Is(err, fs.ErrPermission) {
			return place // one that may not be read is an error, not to be passed over
		}
	}
	return ""
}
