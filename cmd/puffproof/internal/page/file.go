package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/proving"
	"puffproof/cmd/puffproof/internal/show"
)

// readFile reads the file of a design.
func (s *server) readFile(name string) ([]byte, error) {
	s.disk.Lock()
	defer s.disk.Unlock()
	return s.options.Read(s.working, name)
}

// looks is how often the files are looked at: somebody who saved in an editor turns to the page after about as long.
const looks = 700 * time.Millisecond

// watch looks whether somebody else changes the files, until the context ends.
func (s *server) watch(ctx context.Context) {
	tick := time.NewTicker(looks)
	defer tick.Stop()
	last, records := make([]fs.FileInfo, len(s.sheets)), make([]fs.FileInfo, len(s.sheets))
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		for i, sh := range s.sheets {
			if info, err := os.Stat(sh.name); altered(&last[i], info, err) {
				sh.compare()
			}
			if info, err := os.Lstat(proving.RecordName(sh.name)); altered(&records[i], info, err) {
				sh.compareRecord()
			}
		}
	}
}

// altered tells whether a file may be another one than it was when it was last looked at; one that is not there may be.
func altered(last *fs.FileInfo, info fs.FileInfo, err error) bool {
	if err == nil && *last != nil && os.SameFile(info, *last) && info.ModTime().Equal((*last).ModTime()) && info.Size() == (*last).Size() {
		return false
	}
	if *last = nil; err == nil {
		*last = info
	}
	return true
}

// compareRecord holds the record beside the file against what it was. Where it is another one every answer is judged anew: what was
// found of the design itself stays.
func (sh *sheet) compareRecord() {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	mark := proving.Mark(sh.name) // not before: an answer may just be written
	if mark == sh.record {
		return
	}
	sh.record, sh.older = mark, sh.lastJudged()
	for _, f := range sh.found {
		f.full, f.settings = nil, nil
	}
	sh.readBefore()
	sh.altered()
	sh.note = "The record beside the file was changed elsewhere: its answers were judged anew."
	sh.show()
}

// compare reads the file and holds it against what it was. Where nothing was changed on the page what it says now is taken over;
// else somebody has to choose.
func (sh *sheet) compare() {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	data, err := sh.server.readFile(sh.name) // not before: the page may just be saving
	gone := errors.Is(err, fs.ErrNotExist) || err != nil && notThere(sh.name)
	if err != nil && !gone {
		return // it is being written; the next look tells
	}
	d := sh.draft
	switch {
	case gone && (sh.outside == nil || sh.outside.data != nil):
		sh.outside = &outside{}
	case gone:
		return
	case bytes.Equal(data, d.saved):
		if sh.outside == nil {
			return
		}
		sh.outside = nil
	case bytes.Equal(data, d.now): // somebody wrote the same
		d.saved, sh.outside = data, nil
		sh.readBefore()
	case !d.altered():
		d.put(data, "what an editor changed in the file", "")
		d.saved, sh.outside = data, nil
		sh.readBefore()
		sh.altered()
		sh.note = "The file was changed elsewhere: this is what it says now."
	default:
		if sh.outside != nil && bytes.Equal(sh.outside.data, data) {
			return
		}
		sh.outside = &outside{data}
	}
	sh.show()
}

// notThere tells that no file of a name is there.
func notThere(name string) bool {
	_, err := os.Stat(name)
	return errors.Is(err, fs.ErrNotExist)
}

// save writes the draft into its file, unless somebody else has changed that meanwhile: nobody's work is lost. The error says why
// nothing was written; the draft stays.
func (sh *sheet) save(ctx context.Context) error {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	d := sh.draft
	if len(sh.problems) > 0 {
		return fmt.Errorf("not saved: the draft has %s; mend what is wrong first", show.Plural(len(sh.problems), "mistake", "mistakes"))
	}
	data, err := sh.server.readFile(sh.name)
	switch {
	case err != nil && !notThere(sh.name):
		return fmt.Errorf("not saved: %w", err)
	case err == nil && !bytes.Equal(data, d.saved):
		if sh.outside == nil || !bytes.Equal(sh.outside.data, data) {
			sh.outside = &outside{data}
		}
		sh.show()
		return errors.New("not saved: the file was changed elsewhere meanwhile; choose below what is to stand in it")
	}
	sh.server.disk.Lock()
	err = atomicfile.Write(ctx, sh.name, d.now, atomicfile.Replace)
	sh.server.disk.Unlock()
	if err != nil {
		return fmt.Errorf("not saved, the file is as it was and the draft is kept: %w", plain(err))
	}
	d.saved, d.gesture, sh.outside = d.now, "", nil
	sh.readBefore()
	sh.note = "Saved."
	sh.show()
	return nil
}

// plain is an error without the path and the system call that Go puts around it.
func plain(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

// choose settles what becomes of a file that somebody else changed: what it says now, what the page says, or the changes of the
// page on top of what it says now. The error says why the choice is none any more.
func (sh *sheet) choose(choice, id string) error {
	sh.mu.Lock()
	defer sh.mu.Unlock()
	o, d := sh.outside, sh.draft
	if o == nil || fingerprint(o.data) != id {
		return errors.New("the file has changed again: look at it anew")
	}
	next, what := d.now, ""
	switch {
	case choice == "mine":
	case o.data == nil:
		return errors.New("there is no file any more; keep what the page says, and save it")
	case choice == "theirs":
		next, what = o.data, "what somebody else wrote in the place of the draft"
	case choice == "both":
		both, err := carried(d.saved, d.now, o.data)
		if err != nil {
			return err
		}
		next, what = both, "the changes of the page on what somebody else wrote"
	default:
		return fmt.Errorf("unknown choice %q", choice)
	}
	d.saved, sh.outside = o.data, nil
	sh.readBefore()
	d.put(next, what, "")
	sh.note = ""
	sh.altered()
	return nil
}
