package view

import (
	"bytes"
	"embed"
	"fmt"
	"hash/fnv"
	"html/template"
	"reflect"
	"sync"

	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
)

//go:embed page.html parts.html style.css page.js icon.svg
var files embed.FS

// Asset gives a file that the page needs; nil: there is none of the name.
func Asset(name string) []byte {
	data, err := files.ReadFile(name)
	if err != nil {
		return nil
	}
	return data
}

// templates are read once; nothing changes them.
var templates = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("").Funcs(template.FuncMap{"clean": show.Clean, "id": partID, "plural": show.Plural}).
		ParseFS(files, "page.html", "parts.html"))
})

// one is a part with the template that writes it and its data. Where key is not nil the data are a function, func() any, and what was
// written of equal keys is not written again. Nor is what was written of equal data: a move of one slider changes one table.
type one struct {
	id, template string
	data         any
	key          any
}

// Memo keeps parts that take long to write, each by what it was made of. One goroutine uses it.
type Memo struct{ kept map[string]kept }

type kept struct {
	key, data any
	html      string
}

// Parts writes all parts of a page: their ids in the order of the page, and the HTML within each.
//
// While the nominal shot of a new draft is computed, some hundredths of a second, the plots and figures of the one before stay as
// they are, dimmed by the style sheet for the stage that the finding then has: a page that empties with every move of a slider shows
// nothing.
func Parts(st *State, memo *Memo) (order []string, html map[string]string) {
	type pointers [6]any
	all := []one{asking(st), actionsOf(st), {id: "trouble", template: "trouble", data: troubleOf(st)},
		{"circuit", "circuit", func() any { return circuitOf(st) }, pointers{st.Launcher}}}
	if st.Quick != nil || st.Launcher == nil {
		all = append(all, plain("hard", hardOf(st)),
			one{"plots", "plots", func() any { return plotsOf(st) },
				pointers{st.Quick, st.QuickBefore, st.First, st.Full, st.FullBefore, st.Altered}},
			one{"plays", "plays", func() any { return playsOf(st) }, pointers{st.Quick, st.Full}})
	}
	all = append(all, plain("verdicts", verdictsOf(st)), plain("search", searchOf(st)), plain("ladder", ladderOf(st)),
		plain("budget", budgetOf(st)), plain("road", roadOf(st)), plain("beside", besideOf(st)), plain("said", saidOf(st)))
	return memo.write(append(all, tables(st)...))
}

// Asking writes the part alone that says what is being looked at.
func Asking(st *State) (order []string, html map[string]string) {
	return (*Memo)(nil).write([]one{asking(st)})
}

// plain is a part whose template has its name.
func plain(id string, data any) one { return one{id: id, template: id, data: data} }

// write writes parts. What a template cannot write says so in its place: the rest of the page stays. A nil memo keeps nothing.
func (m *Memo) write(all []one) (order []string, html map[string]string) {
	html = map[string]string{}
	for _, p := range all {
		order = append(order, p.id)
		if old, is := m.of(p.id); is && p.key != nil && old.key == p.key {
			html[p.id] = old.html
			continue
		}
		if make, later := p.data.(func() any); later {
			p.data = make()
		} else if old, is := m.of(p.id); is && reflect.DeepEqual(old.data, p.data) {
			html[p.id] = old.html
			continue
		}
		var b bytes.Buffer
		if err := templates().ExecuteTemplate(&b, p.template, p.data); err != nil {
			b.Reset()
			fmt.Fprintf(&b, "<p>This part could not be written: %s</p>", template.HTMLEscapeString(err.Error()))
		}
		html[p.id] = b.String()
		m.keep(p, html[p.id])
	}
	return order, html
}

// of is what was kept of a part; a nil memo keeps nothing.
func (m *Memo) of(id string) (kept, bool) {
	if m == nil {
		return kept{}, false
	}
	k, is := m.kept[id]
	return k, is
}

// keep keeps what was written of a part.
func (m *Memo) keep(p one, html string) {
	if m == nil {
		return
	}
	if m.kept == nil {
		m.kept = map[string]kept{}
	}
	m.kept[p.id] = kept{key: p.key, html: html}
	if p.key == nil { // by what it says; of the others the key says all
		m.kept[p.id] = kept{data: p.data, html: html}
	}
}

// Page writes the whole page as it is sent first.
func Page(st *State, key string) ([]byte, error) {
	_, html := Parts(st, nil)
	parts := map[string]template.HTML{}
	for id, text := range html {
		parts[id] = template.HTML(text) //nolint:gosec // written by the templates beside
	}
	var b bytes.Buffer
	err := templates().ExecuteTemplate(&b, "page.html", struct {
		*State
		Key   string
		Title string
		Parts map[string]template.HTML
	}{st, key, titleOf(st), parts})
	return b.Bytes(), err
}

// titleOf names the design.
func titleOf(st *State) string {
	if st.Launcher == nil {
		return st.File
	}
	return show.DesignID{Name: st.Launcher.Name, Revision: st.Launcher.Revision}.Title()
}

// partID is the id of something of a name that the design gives, which may be any text.
func partID(name string) string {
	h := fnv.New64a()
	_, _ = h.Write([]byte(name))
	return fmt.Sprintf("part-%x", h.Sum64())
}

// Head is the finding.
type Head struct {
	Title, File string
	Others      []Other
	Word, Words string // Word is the status in one word
	Tone        string // of the style sheet
	Looking     string
	Generation  int
	Stage       string // "quick", "first", "full"
}

// asking is the part of the finding.
func asking(st *State) one {
	h := Head{Title: titleOf(st), File: st.File, Others: st.Others, Generation: st.Generation, Stage: "quick", Tone: "open",
		Looking: st.Units.Text(st.Looking)}
	switch {
	case st.NoTOML != "" || len(st.Problems) > 0:
		h.Word, h.Tone = "Not judged", "bad"
		h.Words = fmt.Sprintf("the design has %s.", show.Plural(max(1, len(st.Problems)), "mistake", "mistakes"))
	case st.Withheld != "":
		h.Word, h.Words, h.Tone = "Withheld", st.Withheld+".", "bad"
	case st.Full != nil:
		words, tone := show.Finding(st.Full.Report)
		h.Word, h.Words, h.Tone, h.Stage = "Judged", words, toneClass(tone), "full"
	case st.First != nil && len(st.First.Fails) > 0:
		h.Word, h.Words, h.Tone, h.Stage = "Fails already", show.Plural(len(st.First.Fails), "verdict fails", "verdicts fail")+
			" at a first look. The whole judgement is being made.", "bad", "first"
	case st.First != nil:
		h.Word, h.Words, h.Stage = "Not judged yet", "A first look found no failure; it does not show that there is none.", "first"
	default:
		h.Word, h.Words = "Not judged yet", "Looking."
		if st.Quick == nil {
			h.Stage = "asking"
		}
	}
	return plain("finding", h)
}

// searchOf is the looking for changes; nil: there is no launcher to change.
func searchOf(st *State) *Search {
	if st.Launcher == nil && !st.Search.Running {
		return nil
	}
	return &st.Search
}

// toneClass is the class of a tone in the style sheet.
func toneClass(t show.Tone) string {
	return [...]string{show.Neutral: "plain", show.Good: "good", show.Open: "open", show.Bad: "bad", show.Faint: "faint", show.Kept: "kept"}[t]
}

// saidOf is what a screen reader hears: only what is settled, so that it does not babble while a hand moves.
func saidOf(st *State) string {
	if st.Full == nil && st.Withheld == "" && len(st.Problems) == 0 && st.NoTOML == "" {
		return ""
	}
	h, _ := asking(st).data.(Head)
	return h.Word + ": " + h.Words
}

// Actions are the buttons that are always in sight.
type Actions struct {
	Undo, Redo string
	Changed    int
	Altered    bool
	CanSave    bool
	Keys       []change
	Note       string
}

// change is a figure that differs from the file.
type change struct{ Key, Was, Is string }

func actionsOf(st *State) one {
	a := Actions{Undo: st.Undo, Redo: st.Redo, Changed: len(st.Changed), Altered: st.Altered, Note: st.Note,
		CanSave: st.Altered && len(st.Problems) == 0 && st.NoTOML == ""}
	for _, d := range st.Changed {
		a.Keys = append(a.Keys, change{d.Key, said(d.A), said(d.B)})
	}
	return plain("actions", a)
}

// said is a value as a file states it.
func said(v *string) string {
	if v == nil {
		return "not stated"
	}
	return *v
}

// Trouble is what is wrong with the file.
type Trouble struct {
	NoTOML   string
	Problems []fault
	Text     string // to be mended; "" no need to show it
	Rows     int
	Outside  *Outside
	Differs  []change
}

// fault is a problem that no field shows, or any.
type fault struct {
	Place, Key, Message, Found, Want, Hint string
	Part                                   string // where its field is; "" nowhere
}

func troubleOf(st *State) Trouble {
	t := Trouble{NoTOML: st.NoTOML, Outside: st.Outside}
	for _, p := range st.Problems {
		t.Problems = append(t.Problems, fault{fmt.Sprintf("line %d, column %d", p.Line, p.Column), p.Key, p.Message, p.Found, p.Want, p.Hint,
			st.partOf(p.Key)})
	}
	if len(st.Problems) > 0 || st.NoTOML != "" {
		t.Text = st.Text
	}
	if o := st.Outside; o != nil {
		for _, d := range o.Differs {
			t.Differs = append(t.Differs, change{d.Key, said(d.A), said(d.B)})
		}
	}
	return t
}

// partOf is the id of the field of a key; "" there is none.
func (st *State) partOf(key string) string {
	for i := range st.Tables {
		for j := range st.Tables[i].Fields {
			if st.Tables[i].Fields[j].Key == key {
				return "f-" + partID(key)
			}
		}
	}
	return ""
}

// text writes a text of the results.
func (st *State) text(t finding.Text) string { return st.Units.Text(t) }
