# Quarterstep. The two to know: `make run` opens the window on the demo,
# `make test` runs every check. Both install what a Debian-like machine lacks.

GO        ?= .ci/go
BIN       := bin
GOFUMPT   := mvdan.cc/gofumpt@v0.9.2
STATIC    := honnef.co/go/tools/cmd/staticcheck@v0.7.0

# apt packages, by what needs them
PKG_BUILD := gcc libc6-dev pkg-config libgl1-mesa-dev libx11-dev libxcursor-dev \
             libxrandr-dev libxinerama-dev libxi-dev libxxf86vm-dev
PKG_RUN   := libgl1 libgl1-mesa-dri
PKG_TEST  := poppler-utils xvfb xdotool imagemagick unzip
# programs that nobody here wrote, to hold the PDFs against
PKG_PDF   := poppler-utils ghostscript mupdf-tools qpdf
# a printing system of the tests' own, started and ended by them
PKG_CUPS  := cups cups-client printer-driver-cups-pdf ghostscript

# The packages that need no C compiler and no display.
PLAIN := ./app/... ./assets/... ./cmd/qstep/... ./grading/... ./model/... ./printing/... .
# libraries that others wrote, to be timed beside ours
PKG_BENCH := gcc libc6-dev pkg-config libcairo2-dev libgeos-dev python3-opencv poppler-utils
PKG_DIST  := gcc-mingw-w64-x86-64 imagemagick librsvg2-bin zip dpkg-dev xz-utils

.PHONY: run demo test unit window-test check bench gobench frames stalls build dist dist-test words pictures clean

run:
	@if [ -n "$$DISPLAY$$WAYLAND_DISPLAY" ] || [ "$$(uname)" != Linux ]; then \
		$(MAKE) --no-print-directory build && $(BIN)/quarterstep -demo; \
	else \
		echo "No display here, so no window. Doing the same job without one."; \
		$(MAKE) --no-print-directory demo; \
	fi

build:
	@.ci/need $(PKG_BUILD) $(PKG_RUN)
	$(GO) build -trimpath -o $(BIN)/quarterstep ./cmd/quarterstep

demo:
	@CGO_ENABLED=0 $(GO) run ./cmd/qstep demo -o build/demo

test: check unit window-test

unit:
	@.ci/need $(PKG_PDF) $(PKG_CUPS)
	CGO_ENABLED=0 $(GO) test $(PLAIN) ./ui/...

window-test: build
	@.ci/need $(PKG_TEST)
	.ci/window-run build/window
	.ci/keys-run build/keys
	.ci/trace-run build/trace scan
	.ci/trace-run build/phototrace photo

check:
	@out="$$($(GO) run $(GOFUMPT) -l $$(git ls-files '*.go'))"; \
		if [ -n "$$out" ]; then echo "gofumpt would change:"; echo "$$out"; exit 1; fi
	CGO_ENABLED=0 $(GO) vet $(PLAIN) ./ui/... ./.ci/bench ./.ci/words
	CGO_ENABLED=0 $(GO) run $(STATIC) $(PLAIN) ./ui/... ./.ci/bench ./.ci/words
	CGO_ENABLED=0 $(GO) test -run TestArrows .

# How long things take, how that grows, and the ratios to other libraries that
# are promised (.ci/bench/rivals.go); it fails where one is missed.
bench:
	@.ci/need $(PKG_BENCH)
	CGO_ENABLED=0 $(GO) run ./.ci/bench

# Every benchmark of the packages.
gobench:
	CGO_ENABLED=0 $(GO) test -p 1 -run '^$$' -bench . -benchmem $(PLAIN) ./ui/...

# Where the real window keeps the hand waiting, going through both demos.
stalls: build
	@.ci/need $(PKG_TEST)
	.ci/stalls build/stalls

# How long the frames of the real window take; the machine should be idle.
frames: build
	@.ci/need $(PKG_TEST)
	GO="$(GO)" .ci/frames build/frames

dist: build
	@.ci/need $(PKG_DIST)
	.ci/dist build/dist

dist-test:
	@.ci/need debootstrap
	.ci/dist-test build/dist

# bring the catalogues of texts in step with the code
words:
	CGO_ENABLED=0 $(GO) run ./.ci/words

# the pictures of the README and the help, from the real window
pictures: build
	@.ci/need $(PKG_TEST)
	.ci/pictures

clean:
	rm -rf $(BIN) build
