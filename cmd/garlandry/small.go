package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"garlandry/app/job"
	"garlandry/pwa/shell"
	"garlandry/static"
)

type schemaCommand struct{}

// Run prints the JSON Schema of a job file.
func (schemaCommand) Run(s stdio) error { return printJSON(s, job.Schema()) }

type versionCommand struct{}

// Run prints version, build of the on-device core, compiler and target.
func (versionCommand) Run(s stdio) error {
	built, err := shell.Load(static.Files)
	core := ""
	if err != nil {
		core = " (no on-device core)"
	}
	fmt.Fprintf(s.out, "garlandry %s, build %s%s, %s %s/%s\n", version(), built.Build, core, runtime.Version(),
		runtime.GOOS, runtime.GOARCH)
	return nil
}

// version returns the module's version from the build, "devel" for a working tree.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" || info.Main.Version == "(devel)" {
		return "devel"
	}
	return info.Main.Version
}
