/* Arming by sticks, a silent receiver, sinking for 4 s: written from the description of the bench, apart from its code. With LOW 0 the craft
   sinks even where the throttle was low in the last valid frame, as the bench does not: 7,080,718 states in place of 7,084,736. */
#ifndef LOW
#define LOW 1
#endif
#ifndef SINK
#define SINK 200
#endif
#define SIL 12
#define CLEAN 60
#define STILL 100
#define ARM 40
#define DIS 20
byte thr;            /* 0 low 1 near 2 up */
byte yaw = 2;        /* 0 fully left 1 near left 2 middle 3 near right 4 fully right */
bit low, cable, pow, armed, spent; bit radio = 1;
byte phase, gap, clean, still, va, vd, sink;
inline craft(first, moved) {
  if :: still < STILL ->
        if :: moved -> still = 0 :: else -> if :: first -> skip :: else -> still++ fi fi
     :: else -> skip fi;
  if :: radio ->
        gap = 0;
        if :: phase < 2 -> phase = 2; clean = 0 :: else -> skip fi;
        if :: phase == 2 -> clean++; if :: clean > CLEAN -> phase = 3; clean = 0 :: else -> skip fi :: else -> skip fi
     :: else ->
        if :: phase >= 2 -> clean = 0; gap++;
              if :: gap >= SIL -> phase = 1; gap = 0 :: else -> skip fi
           :: else -> skip fi
  fi;
  if :: sink > 0 ->
        if :: phase == 3 -> sink = 0
           :: else -> sink++; if :: sink > SINK -> armed = 0; sink = 0; vd = 0; low = 0 :: else -> skip fi fi
     :: else -> skip fi;
  if :: phase < 2 -> spent = 1; va = 0; vd = 0;
        if :: armed && sink == 0 -> if :: SINK > 0 && !low -> sink = 1 :: else -> armed = 0 fi; low = 0 :: else -> skip fi
     :: else -> skip fi;
  if :: !armed ->
        if :: va > 0 && va <= ARM -> va++ :: else -> skip fi;
        if :: radio ->
           if :: thr == 2 || yaw < 3 -> va = 0; spent = 0
              :: else ->
                 if :: va == 0 && thr == 0 && yaw == 4 -> va = 1 :: else -> skip fi;
                 if :: va > 0 && va < ARM + 2 ->
                       if :: thr > 0 || phase != 3 || still < STILL || cable -> spent = 1 :: else -> skip fi;
                       if :: va == ARM + 1 ->
                             if :: !spent -> armed = 1; va = 0; spent = 1 :: else -> va = ARM + 2 fi
                          :: else -> skip fi
                    :: else -> skip fi
           fi
           :: else -> skip fi
     :: else ->
        if :: vd > 0 && vd <= DIS -> vd++ :: else -> skip fi;
        if :: radio ->
           if :: thr == 2 || yaw > 1 -> vd = 0
              :: else ->
                 if :: vd == 0 && thr == 0 && yaw == 0 -> vd = 1 :: else -> skip fi;
                 if :: vd == DIS + 1 -> armed = 0; vd = 0; sink = 0; low = 0 :: else -> skip fi
           fi
           :: else -> skip fi
  fi;
  if :: radio -> low = (LOW && SINK > 0 && armed && sink == 0 && thr == 0) :: else -> skip fi
}
inline go(moved) { if :: pow -> craft(0, moved) :: else -> skip fi }
active proctype p() {
  do
  :: d_step { go(0) }
  :: d_step { thr != 0 -> thr = 0; go(0) }
  :: d_step { thr != 1 -> thr = 1; go(0) }
  :: d_step { thr != 2 -> thr = 2; go(0) }
  :: d_step { yaw != 0 -> yaw = 0; go(0) }
  :: d_step { yaw != 1 -> yaw = 1; go(0) }
  :: d_step { yaw != 2 -> yaw = 2; go(0) }
  :: d_step { yaw != 3 -> yaw = 3; go(0) }
  :: d_step { yaw != 4 -> yaw = 4; go(0) }
  :: d_step { radio = 1 - radio; go(0) }
  :: d_step { cable = 1 - cable; go(0) }
  :: d_step { pow -> craft(0, 1) }
  :: d_step { if :: pow -> pow = 0; phase = 0; gap = 0; clean = 0; still = 0; armed = 0; spent = 0; va = 0; vd = 0; sink = 0; low = 0
                 :: else -> pow = 1; spent = 1; craft(1, 0) fi }
  od
}
