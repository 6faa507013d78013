# Everything here runs on a fresh machine with Go; nothing needs installing.
GO ?= go

.PHONY: demo test check bench bench-lay judge build man install uninstall fuzz

# The main job on the demo orders: the first command holds, so its exit is 1.
demo: build
	@bin/cutgate check testdata/orders/demo; test $$? -le 1
	@bin/cutgate ticket testdata/orders/demo/otterbourne-bath.yaml

# Formatting, vet, staticcheck and every test.
test:
	@test -z "$$(gofmt -l cmd internal rules schema)" || { gofmt -l cmd internal rules schema; echo "not gofmt-ed"; exit 1; }
	$(GO) vet ./...
	$(GO) vet -tags manual ./cmd/cutgate
	$(GO) tool staticcheck ./...
	$(GO) test ./...
	$(GO) test -tags manual -run '^TestManual$$' ./cmd/cutgate

# Generated files and goldens made anew must be what is committed.
check: test
	UPDATE=1 $(GO) test ./...
	git diff --exit-code

# Figures: orders a second, peak memory, and the ratios to decoding and to CUE.
bench:
	$(GO) run ./cmd/speed

# The lay planner on published sets: CUTGATE_STRIPS is the folder that has them.
bench-lay:
	$(GO) run ./cmd/strips
	$(GO) run ./cmd/strips -mode guillotine -sets ht-c,kr

# What becomes of mistakes that are made in orders: found, put right, or made worse.
judge:
	$(GO) run ./cmd/judge

# HOME_PAGE is where people find information about the program: SARIF reports name it.
HOME_PAGE ?=
build: # without C, as it then starts sooner
	$(if $(HOME_PAGE),$(if $(filter http://% https://%,$(HOME_PAGE)),,$(error HOME_PAGE is an address that begins with https://)))
	CGO_ENABLED=0 $(GO) build -ldflags "-X main.homePage=$(HOME_PAGE)" -o bin/cutgate ./cmd/cutgate

# The manual pages, which the commands write themselves.
man:
	rm -rf bin/man
	$(GO) run -tags manual ./cmd/cutgate bin/man

# The program, its pages and its completions: make install PREFIX=$HOME/.local
PREFIX ?= /usr/local
SHARE = $(DESTDIR)$(PREFIX)/share
MAN = $(SHARE)/man/man1
BASH_COMPLETIONS = $(SHARE)/bash-completion/completions
ZSH_COMPLETIONS = $(SHARE)/zsh/site-functions
FISH_COMPLETIONS = $(SHARE)/fish/vendor_completions.d
install: build man
	install -d "$(DESTDIR)$(PREFIX)/bin" "$(MAN)" "$(BASH_COMPLETIONS)" "$(ZSH_COMPLETIONS)" "$(FISH_COMPLETIONS)"
	install -m 755 bin/cutgate "$(DESTDIR)$(PREFIX)/bin"
	install -m 644 bin/man/*.1 "$(MAN)"
	bin/cutgate completion bash > "$(BASH_COMPLETIONS)/cutgate"
	bin/cutgate completion zsh > "$(ZSH_COMPLETIONS)/_cutgate"
	bin/cutgate completion fish > "$(FISH_COMPLETIONS)/cutgate.fish"

uninstall:
	rm -f "$(DESTDIR)$(PREFIX)/bin/cutgate" "$(MAN)/cutgate.1" "$(MAN)"/cutgate-*.1
	rm -f "$(BASH_COMPLETIONS)/cutgate" "$(ZSH_COMPLETIONS)/_cutgate" "$(FISH_COMPLETIONS)/cutgate.fish"

# Each fuzz target for a while: make fuzz FOR=5m
FOR ?= 30s
fuzz:
	@$(GO) list ./... | while read p; do \
	  for f in $$($(GO) test -list '^Fuzz' $$p | grep '^Fuzz'); do \
	    echo "$$p $$f"; $(GO) test -run '^$$' -fuzz "^$$f$$" -fuzztime $(FOR) -fuzzminimizetime 10x $$p || exit 1; done; done
