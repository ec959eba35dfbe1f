//go:build unix

package pgserver

import (
	"os"
	"os/exec"
	"os/user"
	"strconv"
	"syscall"
)

// Confine makes a program run as somebody without rights when we are root; the server refuses to run otherwise.
func Confine(cmd *exec.Cmd) error {
	as, err := notRoot()
	if as != nil {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: as}
	}
	return err
}

// giveAway makes a folder that of whom the server runs as.
func giveAway(folder string) error {
	as, err := notRoot()
	if as == nil || err != nil {
		return err
	}
	return os.Chown(folder, int(as.Uid), int(as.Gid))
}

// notRoot is who runs the server when we are root: the user that the package made, or nobody.
func notRoot() (*syscall.Credential, error) {
	if os.Getuid() != 0 {
		return nil, nil
	}
	who, err := user.Lookup("postgres")
	if err != nil {
		if who, err = user.Lookup("nobody"); err != nil {
			return nil, err
		}
	}
	uid, err := strconv.Atoi(who.Uid)
	if err != nil {
		return nil, err
	}
	gid, err := strconv.Atoi(who.Gid)
	return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}, err
}
