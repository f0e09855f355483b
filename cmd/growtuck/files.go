package main

import (
	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/tell"
)

// writeFiles writes files and says so.
func (a *app) writeFiles(files []save.File, force bool, credits []string) error {
	return a.writeInto("", files, force, nil, credits)
}

// writeInto writes files, into a folder if one is named, and says so under a
// heading.
func (a *app) writeInto(folder string, files []save.File, force bool, heading, credits []string) error {
	if err := save.All(folder, files, force); err != nil {
		return err
	}
	var written []tell.File
	for _, f := range files {
		written = append(written, tell.File{Path: f.Path, Bytes: len(f.Content)})
	}
	return a.print(tell.Files(written, heading, credits))
}
