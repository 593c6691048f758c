/* Draws what a file says with cairo, over and over, and prints the processor
 * time of one drawing in seconds; reading the file is not counted.
 *
 *   cairo table FILE OUT TIMES WIDE HIGH   on a picture; OUT is its bytes, BGRx
 *   cairo pdf   FILE OUT TIMES WIDE HIGH   as a PDF, in memory; OUT is the file
 *
 * The file is words and numbers:
 *   P                          a page begins
 *   C x y wide high            nothing outside is drawn on this page
 *   S width round alpha n dash... offset   a line, followed by its path
 *   F alpha                    an area, followed by its path
 *   M x y | B x y x y x y | E  the path, and its end
 */
#include <cairo-pdf.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

typedef struct {
	char kind;
	int n;
	double v[16];
} step;

static step *steps;
static int count;
static char *made;
static size_t used, room;

static double number(FILE *f) {
	double v;
	if (fscanf(f, "%lf", &v) != 1) {
		fprintf(stderr, "a number is missing\n");
		exit(1);
	}
	return v;
}

static void load(const char *name) {
	FILE *f = fopen(name, "r");
	char word[8];
	if (!f) {
		perror(name);
		exit(1);
	}
	while (fscanf(f, "%7s", word) == 1) {
		step s = {word[0], 0, {0}};
		int n = s.kind == 'C' ? 4 : s.kind == 'F' ? 1 : s.kind == 'M' ? 2 : s.kind == 'B' ? 6 : s.kind == 'S' ? 4 : 0;
		for (int i = 0; i < n; i++) s.v[s.n++] = number(f);
		if (s.kind == 'S')
			for (int i = (int)s.v[3]; i >= 0; i--) s.v[s.n++] = number(f);
		if (count % 4096 == 0) steps = realloc(steps, (count + 4096) * sizeof *steps);
		steps[count++] = s;
	}
	fclose(f);
}

static void draw(cairo_t *c, int paged) {
	const double ink[3] = {INK};
	step *now = NULL;
	int pages = 0;
	cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
	for (int i = 0; i < count; i++) {
		step *s = steps + i;
		double *v = s->v;
		switch (s->kind) {
		case 'P':
			if (paged && pages++) {
				cairo_restore(c);
				cairo_show_page(c);
			}
			if (paged) cairo_save(c);
			break;
		case 'C':
			cairo_rectangle(c, v[0], v[1], v[2], v[3]);
			cairo_clip(c);
			break;
		case 'S':
		case 'F':
			now = s;
			break;
		case 'M':
			cairo_move_to(c, v[0], v[1]);
			break;
		case 'B':
			cairo_curve_to(c, v[0], v[1], v[2], v[3], v[4], v[5]);
			break;
		case 'E':
			if (now->kind == 'F') {
				cairo_set_source_rgba(c, ink[0], ink[1], ink[2], now->v[0]);
				cairo_set_fill_rule(c, CAIRO_FILL_RULE_EVEN_ODD);
				cairo_fill(c);
				break;
			}
			cairo_set_source_rgba(c, ink[0], ink[1], ink[2], now->v[2]);
			cairo_set_line_width(c, now->v[0]);
			cairo_set_line_cap(c, now->v[1] ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
			int n = (int)now->v[3];
			cairo_set_dash(c, now->v + 4, n, now->v[4 + n]);
			cairo_stroke(c);
		}
	}
	if (paged && pages) {
		cairo_restore(c);
		cairo_show_page(c);
	}
}

static cairo_status_t keep(void *_, const unsigned char *data, unsigned n) {
	(void)_;
	if (used + n > room) made = realloc(made, room = 2 * (used + n));
	memcpy(made + used, data, n);
	used += n;
	return CAIRO_STATUS_SUCCESS;
}

static double processor(void) {
	struct timespec t;
	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
	return t.tv_sec + 1e-9 * t.tv_nsec;
}

int main(int argc, char **argv) {
	if (argc != 7) return 2;
	load(argv[2]);
	int times = atoi(argv[4]), picture = !strcmp(argv[1], "table");
	double wide = atof(argv[5]), high = atof(argv[6]), start = 0;
	cairo_surface_t *img = picture ? cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)wide, (int)high) : NULL;
	for (int i = -1; i < times; i++) {
		if (i == 0) start = processor(); /* the first does not count */
		cairo_surface_t *s = img;
		used = 0;
		if (!picture) s = cairo_pdf_surface_create_for_stream(keep, NULL, wide, high);
		cairo_t *c = cairo_create(s);
		cairo_set_tolerance(c, TOLERANCE);
		if (picture) {
			cairo_set_source_rgb(c, GROUND);
			cairo_paint(c);
		} else {
			cairo_scale(c, 72 / 25.4, 72 / 25.4);
		}
		draw(c, !picture);
		if (cairo_status(c)) {
			fprintf(stderr, "cairo: %s\n", cairo_status_to_string(cairo_status(c)));
			return 1;
		}
		cairo_destroy(c);
		if (!picture) cairo_surface_destroy(s);
	}
	printf("%.9f\n", (processor() - start) / times);
	FILE *f = fopen(argv[3], "wb");
	if (!f) return 1;
	if (picture) {
		cairo_surface_flush(img);
		fwrite(cairo_image_surface_get_data(img), 4, (size_t)wide * (size_t)high, f);
	} else {
		fwrite(made, 1, used, f);
	}
	return fclose(f) != 0;
}
