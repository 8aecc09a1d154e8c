/* The reference shots A, C and D with the integrators of SUNDIALS: the same
 * equations as package pneumatics with all parts off (testdata/reference), the
 * same state vector, events by root finding, memory reused from shot to shot.
 *
 * Prints one line per case, method and tolerance:
 *     case method tolerance error microseconds evaluations
 * error is the largest relative error of muzzle speed, exit time, barrel and tank
 * pressure against SciPy DOP853 at 1e-12; microseconds the least mean of several
 * batches. Build and run with run.sh.
 */
#include <arkode/arkode_erkstep.h>
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <sundials/sundials_types.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>
#include <time.h>

enum { M0, U0, M1, U1, X, V, N };

static const double R = 287.05, G = 1.4, RHO0 = 1.185, T0 = 293.15, PA = 101325.0;

typedef struct {
	const char *name;
	double v0, p0, c, b, dead, bore, travel, mass, friction, opening;
	double speed, time, barrel, tank; /* the reference's answers */
	/* made ready */
	double area, k, cv, cp, inv_v0;
	int moving;
} shot;

static shot shots[] = {
	{"A", 2e-3, 401325, 3e-7, 0.3, 50e-6, 0.05, 1.0, 0.05, 0, 0, 52.615999715, 0.0234275341, 92807.006, 256792.433},
	{"C", 5e-3, 301325, 8e-8, 0.4, 100e-6, 0.025, 0.4, 0.02, 2, 0, 42.779950324, 0.0186083596, 160987.394, 290690.083},
	{"D", 2e-3, 401325, 3e-7, 0.3, 50e-6, 0.05, 1.0, 0.05, 0, 0.010, 51.832872084, 0.0282171300, 96606.653, 253376.131},
};

static long evaluations;

static void ready(shot *s) {
	s->area = M_PI / 4 * s->bore * s->bore;
	s->k = s->c * RHO0 * sqrt(T0);
	s->cv = R / (G - 1);
	s->cp = G * s->cv;
	s->inv_v0 = 1 / s->v0;
}

static double barrel_pressure(const shot *s, const double *y) { return (G - 1) * y[U1] / (s->dead + s->area * y[X]); }

static int rhs(double t, N_Vector yv, N_Vector dv, void *user) {
	shot *s = user;
	const double *y = NV_DATA_S(yv);
	double *d = NV_DATA_S(dv);
	double p0 = (G - 1) * y[U0] * s->inv_v0, p1 = barrel_pressure(s, y);
	double t0 = y[U0] / (y[M0] * s->cv), t1 = y[U1] / (y[M1] * s->cv);
	double up = p0, down = p1, tu = t0, sign = 1;
	evaluations++;
	if (p1 > p0) {
		up = p1, down = p0, tu = t1, sign = -1;
	}
	double r = down / up, phi = 1;
	if (r > s->b) {
		double z = (r - s->b) / (1 - s->b);
		phi = sqrt(fmax(1 - z * z, 0));
	}
	double open = s->opening > 0 ? fmin(t / s->opening, 1) : 1;
	double q = sign * open * s->k * up / sqrt(tu) * phi, h = q * s->cp * tu;
	d[M0] = -q, d[U0] = -h, d[M1] = q;
	d[U1] = h - p1 * s->area * y[V];
	d[X] = s->moving ? y[V] : 0;
	d[V] = s->moving ? ((p1 - PA) * s->area - s->friction) / s->mass : 0;
	return 0;
}

/* One event: what ends the phase. */
static int event(double t, N_Vector yv, double *g, void *user) {
	const shot *s = user;
	const double *y = NV_DATA_S(yv);
	(void)t;
	g[0] = s->moving ? y[X] - s->travel : (barrel_pressure(s, y) - PA) * s->area - s->friction;
	return 0;
}

typedef struct {
	const char *name;
	int kind;  /* 0 Adams, 1 BDF, 2 explicit Runge-Kutta */
	int table; /* of the Runge-Kutta methods */
} method;

static const method methods[] = {
	{"adams", 0, 0},
	{"bdf", 1, 0},
	{"erk5", 2, ARKODE_DORMAND_PRINCE_7_4_5},
	{"erk8", 2, ARKODE_FEHLBERG_13_7_8},
};

typedef struct {
	const method *m;
	void *mem;
	N_Vector y, tol;
	SUNMatrix a;
	SUNLinearSolver ls;
	SUNNonlinearSolver nls;
} solver;

static void check(int flag, const char *what) {
	if (flag < 0) {
		fprintf(stderr, "shots: %s failed with %d\n", what, flag);
		exit(1);
	}
}

static void start(const shot *s, N_Vector yv) {
	double *y = NV_DATA_S(yv);
	y[M0] = s->p0 * s->v0 / (R * T0), y[U0] = s->p0 * s->v0 / (G - 1);
	y[M1] = PA * s->dead / (R * T0), y[U1] = PA * s->dead / (G - 1);
	y[X] = y[V] = 0;
}

static void make(solver *w, shot *s, const method *m, double rtol, SUNContext ctx) {
	w->m = m;
	w->y = N_VNew_Serial(N, ctx), w->tol = N_VNew_Serial(N, ctx);
	w->a = NULL, w->ls = NULL, w->nls = NULL;
	start(s, w->y);
	/* The scales near zero are those of the Go program. */
	double *a = NV_DATA_S(w->tol);
	a[M0] = 0.1 * PA * s->v0 / (R * T0), a[U0] = 0.1 * PA * s->v0 / (G - 1);
	a[M1] = 0.1 * PA * s->dead / (R * T0), a[U1] = 0.1 * PA * s->dead / (G - 1);
	a[X] = 0.1 * s->travel, a[V] = 0.3;
	N_VScale(rtol, w->tol, w->tol);
	if (m->kind == 2) {
		w->mem = ERKStepCreate(rhs, 0, w->y, ctx);
		check(ERKStepSVtolerances(w->mem, rtol, w->tol), "tolerances");
		check(ERKStepSetUserData(w->mem, s), "user data");
		check(ERKStepSetTableNum(w->mem, m->table), "table");
		check(ERKStepRootInit(w->mem, 1, event), "root");
		check(ERKStepSetNoInactiveRootWarn(w->mem), "warning");
		check(ERKStepSetMaxNumSteps(w->mem, 100000), "steps");
		return;
	}
	w->mem = CVodeCreate(m->kind == 0 ? CV_ADAMS : CV_BDF, ctx);
	check(CVodeInit(w->mem, rhs, 0, w->y), "init");
	check(CVodeSVtolerances(w->mem, rtol, w->tol), "tolerances");
	check(CVodeSetUserData(w->mem, s), "user data");
	if (m->kind == 0) {
		w->nls = SUNNonlinSol_FixedPoint(w->y, 0, ctx);
		check(CVodeSetNonlinearSolver(w->mem, w->nls), "nonlinear solver");
	} else {
		w->a = SUNDenseMatrix(N, N, ctx);
		w->ls = SUNLinSol_Dense(w->y, w->a, ctx);
		check(CVodeSetLinearSolver(w->mem, w->ls, w->a), "linear solver");
	}
	check(CVodeRootInit(w->mem, 1, event), "root");
	check(CVodeSetNoInactiveRootWarn(w->mem), "warning");
	check(CVodeSetMaxNumSteps(w->mem, 100000), "steps");
}

static void drop(solver *w) {
	if (w->m->kind == 2)
		ERKStepFree(&w->mem);
	else
		CVodeFree(&w->mem);
	N_VDestroy(w->y), N_VDestroy(w->tol);
	if (w->a) SUNMatDestroy(w->a);
	if (w->ls) SUNLinSolFree(w->ls);
	if (w->nls) SUNNonlinSolFree(w->nls);
}

static void restart(solver *w, double t) {
	if (w->m->kind == 2)
		check(ERKStepReInit(w->mem, rhs, t, w->y), "restart");
	else
		check(CVodeReInit(w->mem, t, w->y), "restart");
}

/* Advances to the event or the time limit; true for the event. */
static int advance(solver *w, double limit, double *t) {
	int flag;
	if (w->m->kind == 2) {
		check(ERKStepSetStopTime(w->mem, limit), "stop");
		flag = ERKStepEvolve(w->mem, limit, w->y, t, ARK_NORMAL);
		check(flag, "evolve");
		return flag == ARK_ROOT_RETURN;
	}
	check(CVodeSetStopTime(w->mem, limit), "stop");
	flag = CVode(w->mem, limit, w->y, t, CV_NORMAL);
	check(flag, "evolve");
	return flag == CV_ROOT_RETURN;
}

/* One shot; gives the exit time. */
static double shoot(solver *w, shot *s) {
	double t = 0;
	start(s, w->y);
	s->moving = s->friction == 0;
	restart(w, 0);
	if (!s->moving) {
		if (!advance(w, 1, &t)) exit(2);
		s->moving = 1;
		restart(w, t);
	}
	if (s->opening > 0) { /* the valve's ramp bends here */
		if (advance(w, s->opening, &t)) exit(2);
		restart(w, t);
	}
	if (!advance(w, 1, &t)) exit(2);
	return t;
}

static double now(void) {
	struct timespec ts;
	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &ts);
	return ts.tv_sec + 1e-9 * ts.tv_nsec;
}

static double worst(double a, double got, double want) { return fmax(a, fabs(got / want - 1)); }

int main(void) {
	SUNContext ctx;
	check(SUNContext_Create(NULL, &ctx), "context");
	for (size_t i = 0; i < sizeof shots / sizeof *shots; i++) {
		shot *s = &shots[i];
		ready(s);
		for (size_t j = 0; j < sizeof methods / sizeof *methods; j++) {
			for (int e = 6; e <= 20; e++) {
				double rtol = pow(10, -0.5 * e), best = 1e9, t = 0;
				solver w;
				make(&w, s, &methods[j], rtol, ctx);
				for (int batch = 0; batch < 7; batch++) {
					const int shots_per_batch = 200;
					double from = now();
					for (int n = 0; n < shots_per_batch; n++) t = shoot(&w, s);
					best = fmin(best, (now() - from) / shots_per_batch);
				}
				evaluations = 0;
				t = shoot(&w, s);
				const double *y = NV_DATA_S(w.y);
				double err = worst(0, y[V], s->speed);
				err = worst(err, t, s->time);
				err = worst(err, barrel_pressure(s, y), s->barrel);
				err = worst(err, (G - 1) * y[U0] * s->inv_v0, s->tank);
				printf("%s %s %.1e %.2e %.2f %ld\n", s->name, methods[j].name, rtol, err, 1e6 * best, evaluations);
				drop(&w);
			}
		}
	}
	SUNContext_Free(&ctx);
	return 0;
}
