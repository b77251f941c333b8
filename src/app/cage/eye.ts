import { Matrix4, OrthographicCamera, PerspectiveCamera, Vector3 } from "three";
import { along, dot, sub, type Vec } from "../../core/space/index.ts";
import { axesOf, distanceOf, FIELD, type Stand } from "./stand.ts";

/** What there is to see, as a ball (mm, car axes). */
export interface Around {
  readonly centre: Vec;
  readonly radius: number;
}

/** Below this the perspective is not to be seen, and parallel rays spare the depth's precision. */
const FLAT = 0.04;

/** The two cameras; `aim` sets up the one that a stand calls for. Places are less `origin`. */
export class Eye {
  private readonly flat = new OrthographicCamera();
  private readonly free = new PerspectiveCamera();
  private readonly basis = new Matrix4();
  private readonly origin: Vec;

  constructor(origin: Vec) {
    this.origin = origin;
  }

  aim(stand: Stand, aspect: number, around: Around): OrthographicCamera | PerspectiveCamera {
    const { toward, right, up } = axesOf(stand);
    // How far in front of and behind the target there is something to see.
    const ahead = dot(sub(around.centre, stand.target), toward) + around.radius + 10;
    const behind = around.radius + 10 - dot(sub(around.centre, stand.target), toward);
    const isFlat = stand.perspective < FLAT;
    const distance = isFlat ? Math.max(ahead, 10) : distanceOf(stand);
    const camera = isFlat ? this.flat : this.free;
    if (isFlat) {
      const half = stand.height / 2;
      Object.assign(this.flat, { left: -half * aspect, right: half * aspect, top: half, bottom: -half });
      camera.near = 0;
    } else {
      this.free.fov = FIELD * stand.perspective;
      this.free.aspect = aspect;
      camera.near = Math.max(distance * 0.03, distance - ahead);
    }
    camera.far = Math.max(distance + behind, camera.near + 10);
    const at = sub(along(stand.target, toward, distance), this.origin);
    camera.position.set(at[0], at[1], at[2]);
    this.basis.makeBasis(new Vector3(...right), new Vector3(...up), new Vector3(...toward));
    camera.quaternion.setFromRotationMatrix(this.basis);
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
    return camera;
  }
}
