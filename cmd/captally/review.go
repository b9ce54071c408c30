package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"runtime"
	"syscall"
	"time"

	"captally.example/captally/cmd/captally/review"
	"captally.example/captally/corpus"
	"github.com/urfave/cli/v2"
)

func reviewCommand() *cli.Command {
	return &cli.Command{
		Name:      "review",
		Usage:     "settle what looks odd on a page in your browser, take the notes",
		ArgsUsage: "[FILE]",
		Description: `Opens a page in your browser: the whole session at a glance, what to settle, the
moment itself to hear, and the notes to copy. Without FILE the page has a place
to drop one. The page is served by this program to this computer alone; Ctrl-C
ends it.

What you settle is kept beside the captions, as NAME.captally.json, and check,
measure and notes read it. For a file that was dropped on the page it is kept in
your configuration folder.

Example: captally review knee.srt --video knee.mp4`,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "video", Usage: "play `FILE` at the moments"},
			&cli.IntFlag{Name: "port", Usage: "serve on port `N`", DefaultText: "a free one"},
			&cli.BoolFlag{Name: "no-open", Usage: "print the address only", DisableDefaultText: true},
			&cli.Float64Flag{Name: "idle", Usage: "end after `MINUTES` without anybody", DefaultText: "never"},
			profileFlag(),
		},
		Action: reviewSession,
	}
}

func reviewSession(c *cli.Context) error {
	opt, err := reviewOptions(c)
	if err != nil {
		return err
	}
	server, err := review.Listen(c.Int("port"), opt)
	if err != nil {
		return unreadable("", "the page cannot be served: %v", err)
	}
	fmt.Fprintf(c.App.Writer, "%s\n", server.Address())
	fmt.Fprintln(c.App.ErrWriter, "captally: the page is at the address above, for this computer only; Ctrl-C ends it")
	if !c.Bool("no-open") {
		if err := openBrowser(server.Address()); err != nil {
			fmt.Fprintf(c.App.ErrWriter, "captally: hint: no browser could be started (%v); open the address yourself\n", err)
		}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := server.Serve(ctx); err != nil {
		return unreadable("", "serving the page: %v", err)
	}
	return nil
}

func reviewOptions(c *cli.Context) (review.Options, error) {
	var opt review.Options
	if c.NArg() > 1 {
		return opt, misuse("one page a file: start it twice", "review takes one file, not %d", c.NArg())
	}
	if port := c.Int("port"); port < 0 || port > 65535 {
		return opt, misuse("for example --port 8080", "--port is a number from 1 to 65535, not %d", port)
	}
	idle := c.Float64("idle")
	if c.IsSet("idle") && !(idle > 0 && idle <= 24*60) {
		return opt, misuse("for example --idle 30", "--idle is a number of minutes, at most a day's, not %v", idle)
	}
	opt.Idle = time.Duration(idle * float64(time.Minute))
	name := c.Args().First()
	if name == standardInput {
		return opt, misuse("save it to a file first", "review keeps what you settle beside the file, so it cannot read standard input")
	}
	if name != "" {
		data, err := readBytes(name, c.App.Reader, usualLimits())
		if err != nil {
			return opt, err
		}
		opt.File = &review.File{Name: name, Data: data}
	}
	if c.IsSet("video") {
		video := c.String("video")
		if info, err := os.Stat(video); err != nil || !info.Mode().IsRegular() {
			return opt, unreadable("", "%s: there is no such video file", video)
		}
		opt.Video = video
	}
	var err error
	opt.Profile, err = readProfile(c, profilePlace(name))
	opt.Folder = reviewsFolder()
	opt.Demo = demoFile()
	return opt, err
}

// profilePlace is the caption file beside which a profile is looked for: without one, only the configuration folder is.
func profilePlace(name string) string {
	if name == "" {
		return standardInput
	}
	return name
}

func demoFile() review.File {
	for _, s := range corpus.Sessions() {
		if s.Name == demoSession {
			return review.File{Name: s.Cue.Name, Data: s.Cue.Data}
		}
	}
	return review.File{}
}

// openBrowser shows an address in the user's browser, by the program that each system has for it.
func openBrowser(address string) error {
	var cmd *exec.Cmd
	switch runtime.GOOS {
	case "windows":
		cmd = exec.Command("rundll32", "url.dll,FileProtocolHandler", address)
	case "darwin":
		cmd = exec.Command("open", address)
	default:
		cmd = exec.Command("xdg-open", address)
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	go func() { _ = cmd.Wait() }()
	return nil
}
