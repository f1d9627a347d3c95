// Light is worked out at the vertices: flat parts have one normal and the rounded ones are a few pixels wide,
// so the picture is the same and a software renderer has little left to do for each pixel.
layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec3 info;      // cubie, sticker (-1 on the body), light left by the neighbours
layout(location = 3) in vec2 letter_place;

out vec3 seen;                          // sRGB
#ifdef LETTERS
out vec3 letter;                        // place in the letter sheet; z: 1 where there is a letter
flat out vec3 ink;
#endif

void main() {
    vec4 body = bodies[int(info.x + 0.5)];
    vec4 shown = info.y < 0.0 ? vec4(body.rgb, -1.0) : stickers[int(info.y + 0.5)];
    vec3 place = body.w > 0.5 ? mat3(turn) * position : position;
    vec3 n = body.w > 0.5 ? mat3(turn) * normal : normal;
    vec2 at = letter_place;
#ifdef MIRRORED
    int mirror = gl_InstanceID;
    mat4 reflection = reflections[mirror];
    place = (reflection * vec4(place, 1.0)).xyz;
    n = mat3(reflection) * n;
    // Letters are turned back in the mirrors, so that they can be read there: sideways in the two that
    // stand, upright in the one that lies.
    at = mirror == 2 ? vec2(at.x, 1.0 - at.y) : vec2(1.0 - at.x, at.y);
#endif
    vec3 ambient = mix(floor_light.rgb, sky.rgb, 0.5 + 0.5 * n.y) * info.z;
    float direct = key.w * max(dot(n, key.xyz), 0.0) + fill.w * max(dot(n, fill.xyz), 0.0);
    float gleam = max(dot(n, normalize(key.xyz + normalize(eye.xyz - place))), 0.0);
    gleam = pow(gleam, 32.0) * 0.05 * key.w;
    seen = encode(shown.rgb * (ambient + direct * (0.4 + 0.6 * info.z)) + gleam);
#ifdef LETTERS
    letter = vec3((clamp(at.x, 0.0, 1.0) + shown.w) / 6.0, 1.0 - at.y, shown.w < 0.0 ? 0.0 : 1.0);
    ink = encode((dot(shown.rgb, vec3(0.2126, 0.7152, 0.0722)) > 0.18 ? letter_dark : letter_light).rgb);
#endif
#ifdef MIRRORED
    seen = mix(seen, tint.rgb, tint.a);
#endif
    gl_Position = matrix * vec4(place, 1.0);
}
