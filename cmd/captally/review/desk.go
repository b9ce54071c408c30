package review

import (
	"errors"
	"strings"
	"sync"

	"captally.example/captally/cmd/captally/keep"
)

// mostOpen is how many sessions a page keeps in memory; the one that was used least lately goes first. Nothing is lost by it:
// decisions are on the disk.
const mostOpen = 12

// A desk holds the sessions that are open, by the hash of their captions.
type desk struct {
	opt   Options
	first string // the session to begin with, "" for none
	mu    sync.Mutex
	open  []*sitting // the last used is the last
}

func newDesk(opt Options) (*desk, error) {
	d := &desk{opt: opt}
	if opt.File == nil {
		return d, nil
	}
	path, also := keep.Of(opt.File.Name, opt.File.Data, opt.Folder)
	s, err := d.lay(*opt.File, path, path != keep.Beside(opt.File.Name))
	if err != nil {
		return nil, err
	}
	if also != "" {
		s.remarks = append(s.remarks, "There are also decisions that you made when this file was dropped on the page, in "+also+". They are not used: those beside the captions are.")
	}
	d.first = s.id
	return d, nil
}

// take returns an open session.
func (d *desk) take(id string) (*sitting, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for i, s := range d.open {
		if s.id == id {
			d.open = append(append(d.open[:i:i], d.open[i+1:]...), s)
			return s, nil
		}
	}
	return nil, missing("this session is no longer open here; open its file again, and what you settled is there")
}

// drop opens a file that came without its place on the disk.
func (d *desk) drop(f File) (*sitting, error) {
	f.Name = bareName(f.Name)
	if s, err := d.take(idOf(f.Data)); err == nil {
		return s, nil // the same captions are open already
	}
	if d.opt.Folder == "" {
		return nil, errors.New("there is no configuration folder to keep decisions in; start captally review FILE instead")
	}
	return d.lay(f, keep.ByContent(d.opt.Folder, f.Data), true)
}

// lay reads a file and puts it on the desk.
func (d *desk) lay(f File, decisions string, own bool) (*sitting, error) {
	s, err := newSitting(f, decisions, own, d.opt.Profile)
	if err != nil {
		return nil, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, other := range d.open { // opened by another page meanwhile
		if other.id == s.id {
			return other, nil
		}
	}
	d.open = append(d.open, s)
	if len(d.open) > mostOpen {
		for i, old := range d.open {
			if old.id != d.first {
				d.open = append(d.open[:i:i], d.open[i+1:]...)
				break
			}
		}
	}
	return s, nil
}

// idOf names a session in the page's address: half of the hash of its captions.
func idOf(data []byte) string { return keep.SumOf(data)[:32] }

// bareName is the last part of a name that came from the page. It is shown, and never opened.
func bareName(name string) string {
	name = name[strings.LastIndexAny(name, `/\`)+1:]
	if name == "" {
		return "dropped captions"
	}
	return name
}
