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

chapters and overlay are WebVTT: the chapters, and the corrections to show over
the picture. handout is a page to print. checklist says which items of published
reporting checklists the session fills.

Example: captally notes --out knee.txt knee.srt`,
		Flags: []cli.Flag{
			asFlag("text", "json", "markdown", "chapters", "overlay", "handout", "checklist"),
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
	if as == "checklist" {
		fmt.Fprint(out, notes.ChecklistText(notes.Checklist(r.report, profile)))
		return out.close()
	}
	if err := writeNotes(out, notes.Draft(r.report, profile), as); err != nil {
		return err
	}
	return out.close()
}

func writeNotes(out *output, n *notes.Notes, as string) error {
	switch as {
	case "json":
		writeJSON(out, n, "  ")
	case "markdown":
		fmt.Fprint(out, notes.Markdown(n))
	case "chapters":
		_, _ = out.Write(notes.Chapters(n))
	case "overlay":
		_, _ = out.Write(notes.Overlay(n))
	case "handout":
		page, err := notes.Handout(n)
		if err != nil {
			return err
		}
		_, _ = out.Write(page)
	default:
		fmt.Fprint(out, notes.Text(n))
	}
	return nil
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
