// Package job reads a job file, the description of one installation in YAML
// or JSON, into a [Job], and says of everything that is wrong with it where it
// stands.
package job

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/extralow/examples/form"
	"go.yaml.in/yaml/v3"
)

// mostBytes is the largest job file. The largest job has 0.2 MB.
const mostBytes = 1_000_000

// Survey is what a job file states: every key with where it stands, and the job of plain
// values that comes of them.
type Survey struct {
	job  Job
	name string
	at   map[string]At // by path in the words of the model: "circuits[2].length_m"
}

// At is where a key or a list entry stands and what was typed there.
type At struct {
	Line, Column int
	Key          string // path as typed: "circuits[2].length_ft"
	Text         string // empty for a list or a map
}

// Job returns the job that the survey describes.
func (s *Survey) Job() Job { return s.job }

// Stated returns where a path of the model stands; ok is false where the file does
// not state it.
func (s *Survey) Stated(path string) (at At, ok bool) {
	at, ok = s.at[path]
	return at, ok
}

// Text returns what was typed at a path, in the unit of the key that was
// typed; ok is false for a list, a map or what the file does not have.
func (s *Survey) Text(path string) (text string, ok bool) {
	at := s.at[path]
	return at.Text, at.Text != ""
}

// Read reads a job file of at most 1 MB; name stands in its faults. The error
// joins a [*Fault] for everything that is wrong, up to 2000, in the order of the
// file; the file is then nil. Names that point to nothing are judged last, and
// only against lists that could be read.
func Read(name string, r io.Reader) (*Survey, error) {
	text, fault := readText(name, r)
	if fault != nil {
		return nil, join([]*Fault{fault})
	}
	root, fault := parse(name, text)
	if fault != nil {
		return nil, join([]*Fault{fault})
	}
	w := newWalker(name)
	w.note("", "file", root, root)
	w.fill(root, reflect.ValueOf(w.job).Elem(), key{}, "")
	if !w.full() {
		links{w}.check()
	}
	if len(w.faults) > 0 {
		return nil, join(w.faults)
	}
	return w.survey, nil
}

// ReadFile reads the job file of that name, or standard input where it is "-".
// Only a regular file is opened: of a pipe or a device nobody knows whether it ever
// ends. Name is what stands in the faults.
func ReadFile(name string) (*Survey, error) {
	if name == "-" {
		return Read("standard input", os.Stdin)
	}
	shown := form.Printable(name)
	info, err := os.Stat(name)
	if err == nil && !info.IsDir() && !info.Mode().IsRegular() {
		return nil, join([]*Fault{{File: shown, Key: "file", Got: "a pipe or a device", Want: "a job file, or - for standard input"}})
	}
	if err != nil {
		return nil, join([]*Fault{unopened(shown, err)})
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, join([]*Fault{unopened(shown, err)})
	}
	defer f.Close()
	return Read(shown, f)
}

// unopened says why a file cannot be opened, without its name once more.
func unopened(shown string, err error) *Fault {
	if at, ok := errors.AsType[*fs.PathError](err); ok {
		err = at.Err
	}
	return &Fault{File: shown, Key: "file", Got: "unreadable", Want: "a job file; " + err.Error()}
}

// readText returns the bytes of a file that is text and not too long.
func readText(name string, r io.Reader) ([]byte, *Fault) {
	if isFolder(r) {
		return nil, &Fault{File: name, Key: "file", Got: "a folder", Want: "a job file"}
	}
	text, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return nil, &Fault{File: name, Key: "file", Got: "unreadable", Want: "a job file; " + err.Error()}
	}
	if len(text) > mostBytes {
		return nil, &Fault{File: name, Key: "file", Got: "larger than 1 MB", Want: "a job file of at most 1 MB"}
	}
	return text, notText(name, text)
}

func isFolder(r io.Reader) bool {
	f, ok := r.(fs.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.IsDir()
}

// notText finds the first byte that text in UTF-8 does not have.
func notText(name string, text []byte) *Fault {
	line, column := 1, 1
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			return &Fault{name, line, column, "file", "", "not text in UTF-8", "YAML or JSON in UTF-8"}
		case r == '\n':
			line, column = line+1, 0
		case unicode.IsControl(r) && r != '\t' && r != '\r':
			return &Fault{name, line, column, "file", "", fmt.Sprintf("not plain text (it has the character %U)", r), "YAML or JSON in UTF-8"}
		}
		i, column = i+size, column+1
	}
	return nil
}

// parse returns the root of the one document of a file. The parser refuses
// lists and maps nested more than 10,000 deep, and nothing here descends into
// what the model does not have.
func parse(name string, text []byte) (*yaml.Node, *Fault) {
	lines := &lineReader{rest: text}
	decoder := yaml.NewDecoder(lines)
	var document, second yaml.Node
	switch err := decoder.Decode(&document); {
	case errors.Is(err, io.EOF):
		return nil, &Fault{name, 1, 1, "file", "", "", "the keys of a job"}
	case err != nil:
		return nil, syntaxFault(name, text, lines.begun, err)
	}
	switch err := decoder.Decode(&second); {
	case err == nil:
		return nil, &Fault{name, second.Line, second.Column, "file", "", "a second document", "one document, without a further ---"}
	case !errors.Is(err, io.EOF):
		return nil, syntaxFault(name, text, lines.begun, err)
	}
	return document.Content[0], nil
}

// lineReader hands out one line at a time, so that the line at which the
// parser gives up is known.
type lineReader struct {
	rest   []byte
	begun  int
	inside bool
}

func (l *lineReader) Read(p []byte) (int, error) {
	if len(l.rest) == 0 {
		return 0, io.EOF
	}
	line := l.rest
	if end := bytes.IndexByte(line, '\n'); end >= 0 {
		line = line[:end+1]
	}
	n := copy(p, line)
	if !l.inside && n > 0 {
		l.begun++
	}
	l.inside = n > 0 && line[n-1] != '\n'
	l.rest = l.rest[n:]
	return n, nil
}

var lineOfError = regexp.MustCompile(`^line ([0-9]+): (.*)$`)

// syntaxFault places an error of the parser. Of a list or map that goes wrong
// the parser names the line where that began; the line last read is nearer.
func syntaxFault(name string, text []byte, lastRead int, err error) *Fault {
	said, number := strings.TrimPrefix(err.Error(), "yaml: "), max(1, lastRead)
	if m := lineOfError.FindStringSubmatch(said); m != nil {
		said = m[2]
		if n, err := strconv.Atoi(m[1]); err == nil && !strings.HasPrefix(said, "did not find expected") {
			number = n
		}
	}
	if indent, _ := lineOf(text, lastRead); strings.Contains(indent, "\t") && !isJSON(text) {
		said, number = "indent with spaces, not with tabs", lastRead
	}
	indent, typed := lineOf(text, number)
	return &Fault{name, number, len(indent) + 1, "line", typed, "", "YAML or JSON that can be read up to here: " + said}
}

// isJSON tells JSON, where tabs may stand between the signs, from YAML.
func isJSON(text []byte) bool { return bytes.HasPrefix(bytes.TrimSpace(text), []byte("{")) }

// lineOf returns a line by its number, or an empty one: the blanks before it,
// and what is typed.
func lineOf(text []byte, number int) (indent, typed string) {
	lines := bytes.SplitN(text, []byte("\n"), number+1)
	if number < 1 || number > len(lines) {
		return "", ""
	}
	line := string(lines[number-1])
	typed = strings.TrimLeft(line, " \t")
	return line[:len(line)-len(typed)], strings.TrimSpace(typed)
}
