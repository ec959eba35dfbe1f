# kettlefrost needs Go and nothing else to run; the tests drive a headless Chromium, start a PostgreSQL server and check the pages with axe-core, which
# `make test` fetches where they are missing.
export CGO_ENABLED = 0

.PHONY: serve test check bench build

serve:
	go run ./cmd/kettlefrost serve

test: check
	@./test/chromium
	@./test/postgres
	@./test/axe
	go test -timeout 25m ./...

check:
	@files=$$(gofmt -l cmd demo internal schema); if [ -n "$$files" ]; then echo "not gofmt-ed:"; echo "$$files"; exit 1; fi
	go vet ./...

bench:
	go test -run '^$$' -bench . -benchmem ./...

build:
	go build -trimpath -ldflags '-s -w' -o kettlefrost ./cmd/kettlefrost
