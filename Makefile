# Everything here runs on a fresh machine with Go; nothing needs installing.
GO ?= go

.PHONY: demo test check bench build fuzz

# The main job on the demo orders: the first command holds, so its exit is 1.
demo:
	@$(GO) run ./cmd/cutgate check testdata/orders/demo; test $$? -le 1
	@$(GO) run ./cmd/cutgate ticket testdata/orders/demo/otterbourne-bath.yaml

# Formatting, vet, staticcheck and every test.
test:
	@test -z "$$(gofmt -l cmd internal rules schema)" || { gofmt -l cmd internal rules schema; echo "not gofmt-ed"; exit 1; }
	$(GO) vet ./...
	$(GO) tool staticcheck ./...
	$(GO) test ./...

# Generated files and goldens made anew must be what is committed.
check: test
	UPDATE=1 $(GO) test ./...
	git diff --exit-code

# Figures: orders a second, peak memory, and the ratios to decoding and to CUE.
bench:
	$(GO) run ./cmd/speed

build:
	$(GO) build -o bin/cutgate ./cmd/cutgate

# Each fuzz target for a while: make fuzz FOR=5m
FOR ?= 30s
fuzz:
	@$(GO) list ./... | while read p; do \
	  for f in $$($(GO) test -list '^Fuzz' $$p | grep '^Fuzz'); do \
	    echo "$$p $$f"; $(GO) test -run '^$$' -fuzz "^$$f$$" -fuzztime $(FOR) $$p || exit 1; done; done
