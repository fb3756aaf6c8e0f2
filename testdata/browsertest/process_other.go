//go:build !linux && !js

package browsertest

import "os/exec"

func together(*exec.Cmd) {}

// kill ends a program.
func kill(command *exec.Cmd) { _ = command.Process.Kill() }
