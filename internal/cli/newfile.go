package cli

import (
	"errors"
	"io"
	"os"
)

// writeNew writes a file that is not there yet, and is there only when it is whole. Flag is what named it.
func writeNew(flag, path string, write func(io.Writer) error) (err error) {
	if _, err := os.Lstat(path); err == nil {
		return failure{badUsage, flag + " " + path, "is there already", "name a file that is not there yet"}
	}
	f, err := os.OpenFile(path+".half", os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return failure{failed, flag + " " + path, "cannot be written: " + reason(err), "name a file in a folder that you may write to"}
	}
	defer func() {
		if err = errors.Join(err, f.Sync(), f.Close()); err == nil {
			err = os.Rename(f.Name(), path)
		} else {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	return write(f)
}
