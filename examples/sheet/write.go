package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// WriteWhole writes a file whole or not at all: into a file beside it that takes
// its name last. An older file is replaced only by force, and keeps its mode. A
// link, a device and a folder are refused. An error names the file.
func WriteWhole(name string, force bool, write func(io.Writer) error) error {
	mode, err := modeOf(name, force)
	if err == nil {
		err = replace(name, mode, write)
	}
	if err == nil {
		return nil
	}
	if plain, ok := errors.AsType[syscall.Errno](err); ok {
		err = plain // without the name of the file beside it
	}
	return fmt.Errorf("cannot write %q: %w", name, err)
}

var (
	errNoFile = errors.New("want the name of a file, new or to be replaced")
	errThere  = errors.New("it is there already: want another name, or -force to replace it")
)

// modeOf is the mode of the older file, or that of a new one.
func modeOf(name string, force bool) (fs.FileMode, error) {
	old, err := os.Lstat(name)
	switch {
	case name == "" || err == nil && !old.Mode().IsRegular():
		return 0, errNoFile
	case err == nil && !force:
		return 0, errThere
	case err == nil:
		return old.Mode().Perm(), nil
	}
	return 0o644, nil
}

func replace(name string, mode fs.FileMode, write func(io.Writer) error) error {
	beside, err := os.CreateTemp(filepath.Dir(name), ".unfinished-*")
	if err != nil {
		return err
	}
	defer os.Remove(beside.Name()) // no longer there where all went well
	if err := cmp.Or(write(beside), beside.Chmod(mode), beside.Close()); err != nil {
		return err
	}
	return os.Rename(beside.Name(), name)
}
