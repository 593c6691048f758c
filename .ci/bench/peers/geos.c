/* Draws lines beside closed outlines with GEOS and prints the processor time of
 * all of them once, in seconds; reading them is not counted.
 *
 *   geos FILE OUT TIMES WIDTH
 *
 * The file has of each outline how many points it has, then x and y of each, the
 * first once more at the end. OUT is like it, of the lines beside.
 */
#include <geos_c.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { most = 10000, mitre_limit = 4 };

static double processor(void) {
	struct timespec t;
	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
	return t.tv_sec + 1e-9 * t.tv_nsec;
}

int main(int argc, char **argv) {
	static GEOSGeometry *in[most], *out[most];
	int n, rings = 0;
	if (argc != 5) return 2;
	initGEOS(NULL, NULL);
	FILE *f = fopen(argv[1], "r");
	if (!f) return 1;
	while (rings < most && fscanf(f, "%d", &n) == 1) {
		GEOSCoordSequence *s = GEOSCoordSeq_create(n, 2);
		for (int i = 0; i < n; i++) {
			double x, y;
			if (fscanf(f, "%lf %lf", &x, &y) != 2) return 1;
			GEOSCoordSeq_setXY(s, i, x, y);
		}
		in[rings++] = GEOSGeom_createPolygon(GEOSGeom_createLinearRing(s), NULL, 0);
	}
	fclose(f);
	int times = atoi(argv[3]);
	double width = atof(argv[4]), start = 0;
	for (int t = -1; t < times; t++) {
		if (t == 0) start = processor(); /* the first does not count */
		for (int i = 0; i < rings; i++) {
			if (out[i]) GEOSGeom_destroy(out[i]);
			out[i] = GEOSBufferWithStyle(in[i], width, 8, GEOSBUF_CAP_ROUND, GEOSBUF_JOIN_MITRE, mitre_limit);
			if (!out[i]) return 1;
		}
	}
	printf("%.9f\n", (processor() - start) / times);
	f = fopen(argv[2], "w");
	for (int i = 0; f && i < rings; i++) {
		const GEOSCoordSequence *s = GEOSGeom_getCoordSeq(GEOSGetExteriorRing(out[i]));
		unsigned size = 0;
		GEOSCoordSeq_getSize(s, &size);
		fprintf(f, "%u\n", size);
		for (unsigned k = 0; k < size; k++) {
			double x, y;
			GEOSCoordSeq_getXY(s, k, &x, &y);
			fprintf(f, "%.9f %.9f\n", x, y);
		}
	}
	return !f || fclose(f);
}
