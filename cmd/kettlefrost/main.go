// Command kettlefrost plans a production day of a small kitchen that cooks in batches, freezes in flat bags and sells.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"kettlefrost/internal/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := cli.Run(ctx, os.Args[1:], os.Getenv, os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
