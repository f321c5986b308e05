/* Steps one free rigid body with a general-purpose rigid-body engine and prints the time of a step in ns. */
#include <ode/ode.h>
#include <stdio.h>
#include <time.h>

int main(void) {
	dInitODE2(0);
	dWorldID world = dWorldCreate();
	dWorldSetGravity(world, 0, 0, 9.80665);
	dBodyID body = dBodyCreate(world);
	dMass mass;
	dMassSetParameters(&mass, 0.45, 0, 0, 0, 2.1e-3, 2.3e-3, 3.8e-3, 0, 0, 0);
	dBodySetMass(body, &mass);
	dBodySetAngularVel(body, 5, -6, 6);
	const int n = 1000000;
	struct timespec a, b;
	clock_gettime(CLOCK_MONOTONIC, &a);
	for (int i = 0; i < n; i++) {
		dBodyAddRelForce(body, 0, 0, -4.4);
		dBodyAddRelTorque(body, 0.001, 0.002, -0.001);
		dWorldQuickStep(world, 0.001);
	}
	clock_gettime(CLOCK_MONOTONIC, &b);
	const dReal *q = dBodyGetQuaternion(body);
	printf("%.1f %g\n", ((b.tv_sec - a.tv_sec) * 1e9 + (b.tv_nsec - a.tv_nsec)) / n, q[0]);
	return 0;
}
