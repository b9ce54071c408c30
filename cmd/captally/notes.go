package main

import (
	"fmt"

	"captally.example/captally/notes"
	"github.com/urfave/cli/v2"
)

func notesCommand() *cli.Command {
	return &cli.Command{
		Name:      "notes",
		Usage:     "draft the notes that go beneath the video",
		ArgsUsage: "FILE",
		Description: `Drafts the description of a session from what was said and measured: the
exercises with their doses, equipment, cautions, chapters, and what the viewer
should know about slips. Gaps for you to fill stand in [brackets].
It is a draft: read it before anyone else does.

Example: captally notes --out knee.txt knee.srt`,
		Flags: []cli.Flag{
			asFlag("text", "json", "chapters", "overlay"),
			&cli.StringFlag{Name: "profile", Usage: "take your clinic, cautions and headings from `FILE` (TOML)"},
			outFlag(),
		},
		Action: draftNotes,
	}
}

func draftNotes(c *cli.Context) error {
	as, err := form(c)
	if err != nil {
		return err
	}
	file, err := oneFile(c)
	if err != nil {
		return err
	}
	out, err := newOutput(c, file, c.String("profile"))
	if err != nil {
		return err
	}
	profile, err := readProfile(c)
	if err != nil {
		return err
	}
	r, err := readReport(file, c.App.Reader)
	if err != nil {
		return err
	}
	n := notes.Draft(r.report, profile)
	switch as {
	case "json":
		writeJSON(out, n, "  ")
	case "chapters":
		out.Write(notes.Chapters(n))
	case "overlay":
		out.Write(notes.Overlay(n))
	default:
		fmt.Fprint(out, notes.Text(n))
	}
	return out.close()
}

func readProfile(c *cli.Context) (notes.Profile, error) {
	name := c.String("profile")
	if name == "" {
		return notes.Profile{}, nil
	}
	data, err := readBytes(name, c.App.Reader)
	if err != nil {
		return notes.Profile{}, err
	}
	return notes.ReadProfile(name, data)
}
